/** What is packaged: the built program and the packages it runs with; no sources, no tests, no build tools. */
const standIn = process.env.STRAIGHTEDGE_ELECTRON_DIST;

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
  linux: { target: ['AppImage', 'deb'], category: 'Office', maintainer: 'Straightedge' },
  win: { target: ['nsis'] },
  mac: { target: ['dmg'], category: 'public.app-category.business' },
};
