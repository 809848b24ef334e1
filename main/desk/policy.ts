/**
 * SHA-256 of the one style sheet that the component library (react-aria) adds to the page, about touch on pressed buttons. Other inline
 * code is refused.
 */
export const LIBRARY_STYLE = "'sha256-38RhXrc7EdReTKsOm23ZPOCUgniTUUcjky8QOOrQx6o='";

/** The content security policy of both hosts: nothing external, no inline script, no frames, no plug-ins. */
export const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  `style-src 'self' ${LIBRARY_STYLE}`,
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Headers of every file. */
export const FILE_HEADERS: Readonly<Record<string, string>> = {
  'X-Content-Type-Options': 'nosniff',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/** Headers of what a browser runs with rights of its own: the page and its workers. */
export const POLICY_HEADERS: Readonly<Record<string, string>> = {
  ...FILE_HEADERS,
  'Content-Security-Policy': CONTENT_POLICY,
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Permissions-Policy': 'geolocation=(), microphone=(), camera=(), usb=(), serial=(), hid=(), payment=()',
};
