/** What is packaged: the built program and the packages it runs with; no sources, no tests, no build tools. */
const standIn = process.env.STRAIGHTEDGE_ELECTRON_DIST;

/** Copies of the book. Locked ones are this program's own; a zip file belongs to whoever opens zip files, and is offered here too. */
const lockedCopy = { ext: 'locked', name: 'Locked copy of a job book', mimeType: 'application/x-straightedge-locked', role: 'Viewer' };
const openCopy = { ext: 'zip', name: 'Copy of a job book', mimeType: 'application/zip', role: 'Viewer', rank: 'Alternate' };

export default {
  appId: 'invalid.straightedge.jobbook',
  productName: 'Straightedge',
  directories: { output: '.out/packages', buildResources: 'build' },
  files: ['.out/main/**', '.out/renderer/**', '.out/fonts/**', 'package.json', '!**/*.map'],
  asar: true,
  npmRebuild: false,
  ...(standIn === undefined ? {} : { electronDist: standIn }),
  ...(standIn !== undefined
    ? {}
    : {
        electronFuses: {
          runAsNode: false,
          enableCookieEncryption: true,
          enableNodeOptionsEnvironmentVariable: false,
          enableNodeCliInspectArguments: false,
          enableEmbeddedAsarIntegrityValidation: true,
          onlyLoadAppFromAsar: true,
          grantFileProtocolExtraPrivileges: false,
        },
      }),
  fileAssociations: [lockedCopy],
  linux: { target: ['AppImage', 'deb'], category: 'Office', maintainer: 'Straightedge', mimeTypes: [openCopy.mimeType] },
  win: { target: ['nsis'] },
  mac: { target: ['dmg'], category: 'public.app-category.business', fileAssociations: [openCopy] },
};
