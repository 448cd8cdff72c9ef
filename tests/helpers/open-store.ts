import { randomUUID } from "node:crypto"
import pg from "pg"
import { inject } from "vitest"
import { openClient } from "../../lib/store/client"
import type { PrismaClient } from "../../lib/store/generated/client"

export type TestStore = {
  url: string
  prisma: PrismaClient
  /** For plain SQL; one connection. */
  client: pg.Client
  close: () => Promise<void>
}

/** A fresh database with all tables and no rows, on the run's one server. Close it in `afterAll`. */
export async function openStore(): Promise<TestStore> {
  const database = await createDatabase("store_template")
  const client = new pg.Client({ connectionString: database.url })
  await client.connect()
  const prisma = openClient(database.url)
  return {
    url: database.url,
    prisma,
    client,
    close: async () => {
      await prisma.$disconnect()
      await client.end()
      await database.drop()
    },
  }
}

/** A database of its own, empty or a copy of `template`. */
export async function createDatabase(
  template = "template1",
): Promise<{ url: string; drop: () => Promise<void> }> {
  const name = `test_${randomUUID().replaceAll("-", "")}`
  await runAsAdmin(`create database ${name} template ${template}`)
  const url = new URL(inject("adminUrl"))
  url.pathname = `/${name}`
  return { url: url.href, drop: () => runAsAdmin(`drop database ${name} with (force)`) }
}

async function runAsAdmin(sql: string): Promise<void> {
  const admin = new pg.Client({ connectionString: inject("adminUrl") })
  await admin.connect()
  try {
    // Two files may copy the template at the same moment, which Postgres refuses.
    await admin.query("select pg_advisory_lock(1)")
    await admin.query(sql)
  } finally {
    await admin.end()
  }
}
