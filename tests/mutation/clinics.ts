import { execFile } from "node:child_process"
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs"
import path from "node:path"
import { fileURLToPath } from "node:url"
import { promisify } from "node:util"
import { DuckDBInstance } from "@duckdb/node-api"
import pg from "pg"
import { z } from "zod"
import { loadFacts } from "../../lib/engine/load"
import { rawTables } from "../../lib/engine/raw-tables"
import { openEmbedded } from "../../lib/store/embedded"
import { migrate } from "../../prisma/migrate"
import { writeDemoClinic } from "../../seed/write-demo-clinic"
import { boundaryClinic } from "../fixtures/boundary-clinic"
import { handMadeClinics, writeClinic } from "../fixtures/clinic"

export const CheckedClinic = z.object({
  name: z.string(),
  /** The extract, and the facts of it as the engine loads them. */
  folder: z.string(),
  file: z.string(),
  timeZone: z.string(),
  days: z.array(z.string()),
  importDay: z.string(),
})

export type CheckedClinic = z.infer<typeof CheckedClinic>

type Plan = { name: string; timeZone: string; days: readonly string[]; write: (folder: string) => unknown }

const timeZone = "America/New_York"
const edgeDays = ["2024-02-29", "2025-03-31", "2025-06-30", "2025-08-31"] as const

/** The people worked out by hand first: small, and made to tell right from wrong. */
const plans: Plan[] = [
  ...handMadeClinics.map((clinic) => ({
    name: clinic.name,
    timeZone: clinic.timeZone,
    days: [clinic.on],
    write: (folder: string) => writeClinic(clinic, folder),
  })),
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
  return { name: plan.name, folder, file, timeZone: plan.timeZone, days: [...plan.days], importDay }
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
