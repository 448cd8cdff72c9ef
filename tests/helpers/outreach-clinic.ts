import { mkdirSync } from "node:fs"
import path from "node:path"
import type { Caller } from "../../lib/access/caller"
import { wholeClinic, type Scope } from "../../lib/access/scope"
import { reconcileCases } from "../../lib/jobs/reconcile-cases"
import { refresh } from "../../lib/jobs/refresh"
import type { CaseAct } from "../../lib/outreach/case-events"
import { takeNext, workOnCase } from "../../lib/outreach/work-on-case"
import { openClient } from "../../lib/store/client"
import { ensureDatabaseRoles } from "../../lib/store/database-roles"
import { importExtract, openFolder, type ExtractFiles } from "./extract"
import { openStore } from "./open-store"

export type OutreachClinic = Awaited<ReturnType<typeof openOutreachClinic>>

/**
 * A clinic with the roles of its database as a site has them: extracts come in as the role of imports, figures are built as
 * the builder's, and people work as the site's. Close it in `afterAll`.
 */
export async function openOutreachClinic() {
  const store = await openStore()
  const folder = openFolder()
  const dataDir = path.join(folder.dir, "data")
  mkdirSync(dataDir, { recursive: true })
  const urls = await ensureDatabaseRoles({ url: store.url, dataDir: folder.dir, appUrl: undefined })
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone: "UTC" } })
  const app = openClient(urls.app)

  return {
    ...{ store, urls, app, dataDir },
    /** Brings in an extract and builds the figures of a day, which looks at the cases. */
    async bringIn(files: ExtractFiles, now: Date) {
      const { status } = await importExtract({ url: urls.import }, folder.dir, files, {
        now,
        timeZone: "UTC",
      })
      if (status !== "done") throw new Error(`the import ended as ${status}`)
      await refresh({ databaseUrl: urls.snapshot, dataDir, now })
    },
    /** A look at the figures built last, on a later day, as the builder's role. */
    async look(now: Date) {
      const client = openClient(urls.snapshot)
      await reconcileCases({ client, dataDir, now }).finally(() => client.$disconnect())
    },
    async callerFor(name: string, role: string): Promise<Caller> {
      const user = await store.prisma.user.create({ data: { userName: name, name, roles: [role] } })
      const at = {
        createdAt: new Date(0),
        lastSeenAt: new Date(0),
        endsAt: new Date(0),
        provenAt: new Date(0),
      }
      return { ...user, userId: user.id, session: { id: "00", method: "password", address: "", ...at } }
    },
    async work(of: {
      patientId: string
      caller: Caller
      now: Date
      act: CaseAct | { kind: "take back" }
      version?: number
      note?: string
    }) {
      const { patientId, caller, now, act, note = null } = of
      const one = await store.prisma.outreachCase.findUniqueOrThrow({ where: { patientId } })
      return workOnCase(app, {
        ...{ caller, now, act, note, scope: wholeClinic, on: now.toISOString().slice(0, 10) },
        ...{ id: one.id, version: of.version ?? one.version },
      })
    },
    take: (of: { caller: Caller; now: Date; scope?: Scope }) =>
      takeNext(app, { scope: wholeClinic, ...of, on: of.now.toISOString().slice(0, 10) }),
    caseOf: (patientId: string) =>
      store.prisma.outreachCase.findUniqueOrThrow({
        where: { patientId },
        include: { reasons: { orderBy: { id: "asc" } }, events: { orderBy: { id: "asc" } } },
      }),
    async close() {
      await app.$disconnect()
      await store.close()
      folder.close()
    },
  }
}
