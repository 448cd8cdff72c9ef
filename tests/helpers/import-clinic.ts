import { execFile } from "node:child_process"
import { fileURLToPath } from "node:url"
import { promisify } from "node:util"
import pg from "pg"
import { z } from "zod"
import type { Settings } from "../../lib/domain/settings"
import { createDatabase } from "./open-store"
import { temporaryFolder } from "./temporary-folder"

const Patients = z.object({
  on: z.string(),
  patients: z.array(z.looseObject({ patient_id: z.string(), standings: z.record(z.string(), z.string()) })),
})
const Measures = z.object({ on: z.string(), measures: z.array(z.looseObject({ id: z.string() })) })

export type ImportedClinic = {
  patientsOn: (on: string) => Promise<z.infer<typeof Patients>["patients"]>
  measuresOn: (on: string) => Promise<z.infer<typeof Measures>["measures"]>
  /** What a command prints that is asked of this clinic. */
  filtrate: (...args: string[]) => Promise<string>
  close: () => Promise<void>
}

const command = fileURLToPath(new URL("../../lib/cli/filtrate.mjs", import.meta.url))
const run = promisify(execFile)

/**
 * A clinic of its own with one extract in it, brought in and asked by the command line alone, as its users do.
 * Rejected rows are accepted, however many. Close it in `afterAll`.
 */
export async function importClinic(extract: {
  folder: string
  timeZone: string
  settings?: Partial<Settings> | undefined
}): Promise<ImportedClinic> {
  const database = await createDatabase("store_template")
  const scratch = temporaryFolder()
  async function filtrate(...args: string[]): Promise<string> {
    const env = {
      ...process.env,
      DATABASE_URL: database.url,
      FILTRATE_DATA: scratch.folder,
      FILTRATE_TIME_ZONE: extract.timeZone,
    }
    const { stdout } = await run(process.execPath, [command, ...args], { env, maxBuffer: 256 * 1024 * 1024 })
    return stdout
  }

  await setSettings(database.url, extract.settings ?? {})
  await filtrate("import", extract.folder, "--accept")
  return {
    filtrate,
    patientsOn: async (on) =>
      Patients.parse(JSON.parse(await filtrate("patients", "--on", on, "--json"))).patients,
    measuresOn: async (on) =>
      Measures.parse(JSON.parse(await filtrate("measures", "--on", on, "--json"))).measures,
    close: async () => {
      await database.drop()
      scratch.remove()
    },
  }
}

async function setSettings(databaseUrl: string, settings: Partial<Settings>): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  for (const [key, value] of Object.entries(settings))
    await client.query("insert into settings (key, value, updated_at) values ($1, $2, now())", [
      key,
      JSON.stringify(value),
    ])
  await client.end()
}
