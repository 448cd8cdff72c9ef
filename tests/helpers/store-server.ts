import { chmodSync, mkdtempSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import path from "node:path"
import pg from "pg"
import type { TestProject } from "vitest/node"
import { openEmbedded } from "../../lib/store/embedded"
import { migrate } from "../../prisma/migrate"

declare module "vitest" {
  export interface ProvidedContext {
    adminUrl: string
  }
}

// Tests throw their data away, so nothing waits for the disk.
const throwAway = { fsync: "off", synchronous_commit: "off", full_page_writes: "off", max_connections: "100" }

/** One embedded server for a whole run; each test file copies the migrated template database. */
export default async function startStoreServer(project: TestProject): Promise<() => Promise<void>> {
  const dataDir = mkdtempSync(path.join(tmpdir(), "filtrate-test-"))
  // The server may run as another user than a root that runs the tests.
  chmodSync(dataDir, 0o755)
  const server = await openEmbedded({ dataDir, extraSettings: throwAway })
  await createTemplate(server.url)
  project.provide("adminUrl", server.url)
  return async () => {
    await server.close()
    rmSync(dataDir, { recursive: true, force: true })
  }
}

async function createTemplate(adminUrl: string): Promise<void> {
  const admin = new pg.Client({ connectionString: adminUrl })
  await admin.connect()
  await admin.query("create database store_template")
  await admin.end()
  const url = new URL(adminUrl)
  url.pathname = "/store_template"
  await migrate(url.href)
}
