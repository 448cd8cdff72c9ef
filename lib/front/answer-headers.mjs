/** A year, in seconds. */
const transportAge = 31_536_000

/**
 * The headers of every answer, whatever gives it.
 * @param {{ nonce: string, isHttps: boolean, isDevelopment: boolean, path: string }} about
 * @returns {Record<string, string>}
 */
export function answerHeaders({ nonce, isHttps, isDevelopment, path }) {
  return {
    "content-security-policy": contentPolicy({ nonce, isHttps, isDevelopment }),
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "permissions-policy": "camera=(), display-capture=(), geolocation=(), microphone=(), payment=(), usb=()",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "x-frame-options": "DENY",
    "x-robots-tag": "noindex, nofollow",
    ...(isHttps ? { "strict-transport-security": `max-age=${transportAge}; includeSubDomains` } : {}),
    ...(isHashedFile(path) ? {} : { "cache-control": "no-store" }),
  }
}

/**
 * What a page may load and run: files of this site, and inline scripts and styles that carry the nonce of this answer.
 * The development server alone also runs code it makes as it goes.
 * @param {{ nonce: string, isHttps: boolean, isDevelopment: boolean }} about
 */
export function contentPolicy({ nonce, isHttps, isDevelopment }) {
  const once = `'nonce-${nonce}'`
  return [
    "default-src 'self'",
    `script-src 'self' ${once} 'strict-dynamic'${isDevelopment ? " 'unsafe-eval'" : ""}`,
    `style-src 'self' ${isDevelopment ? "'unsafe-inline'" : once}`,
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    ...(isHttps ? ["upgrade-insecure-requests"] : []),
  ].join("; ")
}

/** Files whose name holds a hash of what is in them, the same for everyone, may be kept. */
export function isHashedFile(/** @type {string} */ path) {
  return path.startsWith("/_next/static/")
}

/** What a browser forgets of the site when its session ends there. */
export const everythingKept = '"cache", "cookies", "storage"'

/**
 * Whether an answer takes the cookie of a session away.
 * @param {readonly unknown[]} cookies
 */
export function endsSession(cookies) {
  return cookies.some((cookie) => /^(__Host-)?filtrate=;/.test(String(cookie)))
}
