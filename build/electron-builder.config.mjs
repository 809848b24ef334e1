/** Packages the built program and its runtime packages; no sources, tests or build tools. */
const standIn = process.env.STRAIGHTEDGE_ELECTRON_DIST;

/** Associates backups: encrypted ones belong to this program, and zip files can also be opened here. */
const encryptedBackup = {
  ext: 'encrypted',
  name: 'Encrypted Straightedge backup',
  mimeType: 'application/x-straightedge-backup',
  role: 'Viewer',
};
const openCopy = { ext: 'zip', name: 'Straightedge backup', mimeType: 'application/zip', role: 'Viewer', rank: 'Alternate' };

export default {
  appId: 'invalid.straightedge.jobbook',
  productName: 'Straightedge',
  directories: { output: '.out/packages', buildResources: 'build' },
  files: ['.out/main/**', '.out/renderer/**', '.out/fonts/**', 'package.json', '!**/*.{map,br}'],
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
  fileAssociations: [encryptedBackup],
  linux: { target: ['AppImage', 'deb'], category: 'Office', maintainer: 'Straightedge', mimeTypes: [openCopy.mimeType] },
  win: { target: ['nsis'] },
  mac: { target: ['dmg'], category: 'public.app-category.business', fileAssociations: [openCopy] },
};
