import { execFile } from "node:child_process"
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"
import { promisify } from "node:util"
import { DuckDBInstance } from "@duckdb/node-api"
import pg from "pg"
import { z } from "zod"
import type { Settings } from "../../lib/domain/settings"
import { loadFacts } from "../../lib/engine/load"
import { rawTables } from "../../lib/engine/raw-tables"
import { openEmbedded } from "../../lib/store/embedded"
import { migrate } from "../../prisma/migrate"
import { writeDemoClinic } from "../../seed/write-demo-clinic"
import { boundaryClinic } from "../fixtures/boundary-clinic"
import { handMadeClinics, writeClinic, type HandMadeClinic } from "../fixtures/clinic"
import { settingsClinics } from "../fixtures/clinic-settings"

export const CheckedClinic = z.object({
  name: z.string(),
  /** The extract, and the facts of it as the engine loads them. */
  folder: z.string(),
  file: z.string(),
  timeZone: z.string(),
  days: z.array(z.string()),
  importDay: z.string(),
  settings: z.record(z.string(), z.union([z.string(), z.number(), z.null()])),
})

export type CheckedClinic = z.infer<typeof CheckedClinic>

type Plan = {
  name: string
  timeZone: string
  days: readonly string[]
  settings?: Partial<Settings>
  write: (folder: string) => unknown
}

const timeZone = "America/New_York"
const edgeDays = ["2024-02-29", "2025-03-31", "2025-06-30", "2025-08-31"] as const

/** The people worked out by hand first: small, and made to tell right from wrong. */
const plans: Plan[] = [
  ...handMadeClinics.map((clinic) => planOf(clinic)),
  ...settingsClinics.map((clinic) => ({ ...planOf(clinic), settings: clinic.settings })),
  {
    name: "people made of boundaries",
    timeZone,
    days: edgeDays,
    write: (folder) => writeClinic(boundaryClinic({ seed: 20250831, people: 1000, asOfs: edgeDays }), folder),
  },
  {
    name: "a demo clinic",
    timeZone,
    days: ["2024-02-29", "2025-03-31", "2025-07-11", "2025-09-17"],
    write: (folder) => writeDemoClinic({ folder, patients: 200, seed: 11, through: "2025-09-17" }),
  },
]

function planOf(clinic: HandMadeClinic): Plan {
  const { name, timeZone, on } = clinic
  return { name, timeZone, days: [on], write: (folder) => writeClinic(clinic, folder) }
}

const command = fileURLToPath(new URL("../../lib/cli/filtrate.mjs", import.meta.url))
const run = promisify(execFile)

/** Brings every clinic in once through the record store; a folder that holds them already is used as it is. */
export async function prepareClinics(scratch: string): Promise<CheckedClinic[]> {
  const list = path.join(scratch, "clinics.json")
  if (existsSync(list)) return z.array(CheckedClinic).parse(JSON.parse(readFileSync(list, "utf8")))
  mkdirSync(scratch, { recursive: true })
  const server = await openEmbedded({ dataDir: path.join(scratch, "store") })
  try {
    const clinics: CheckedClinic[] = []
    for (const [place, plan] of plans.entries())
      clinics.push(await bringIn({ plan, adminUrl: server.url, scratch, place }))
    writeFileSync(list, JSON.stringify(clinics))
    return clinics
  } finally {
    await server.close()
  }
}

async function bringIn(options: {
  plan: Plan
  adminUrl: string
  scratch: string
  place: number
}): Promise<CheckedClinic> {
  const { plan, scratch, place } = options
  const folder = path.join(scratch, `clinic-${place}`)
  const file = path.join(scratch, `clinic-${place}.duckdb`)
  plan.write(folder)
  const databaseUrl = await createDatabase(options.adminUrl, `clinic_${place}`)
  const env = {
    ...process.env,
    DATABASE_URL: databaseUrl,
    FILTRATE_DATA: path.join(scratch, "site"),
    FILTRATE_TIME_ZONE: plan.timeZone,
  }
  await run(process.execPath, [command, "import", folder, "--accept"], { env, maxBuffer: 64 * 1024 * 1024 })
  await keepFacts({ databaseUrl, file, workDir: scratch })
  const importDay = new Date().toISOString().slice(0, 10)
  const { name, timeZone, settings = {} } = plan
  return { name, folder, file, timeZone, days: [...plan.days], importDay, settings }
}

async function createDatabase(adminUrl: string, name: string): Promise<string> {
  const admin = new pg.Client({ connectionString: adminUrl })
  await admin.connect()
  await admin.query(`create database ${name}`)
  await admin.end()
  const url = new URL(adminUrl)
  url.pathname = `/${name}`
  await migrate(url.href)
  return url.href
}

async function keepFacts(options: { databaseUrl: string; file: string; workDir: string }): Promise<void> {
  const instance = await DuckDBInstance.create(options.file)
  const connection = await instance.connect()
  await loadFacts({ ...options, connection })
  for (const table of rawTables) {
    const name = table.isFact ? `loaded_${table.name}` : table.name
    await connection.run(`create table kept_${name} as from ${name}`)
  }
  connection.closeSync()
  instance.closeSync()
}
