import path from "node:path"
import { DuckDBInstance } from "@duckdb/node-api"
import { z } from "zod"
import { measuresOn } from "../../lib/cli/measures"
import { patientsOn } from "../../lib/cli/patients"
import { plainToday } from "../../lib/domain/plain-date"
import type { Settings } from "../../lib/domain/settings"
import { buildSnapshot } from "../../lib/engine/build"
import { askOn, type Question } from "../../lib/engine/run"
import { currentSnapshot } from "../../lib/engine/snapshot"
import { runImport } from "../../lib/import/run"
import { openStore } from "./open-store"
import { temporaryFolder } from "./temporary-folder"

/** What the commands would print for one month. */
export type MonthAnswer = {
  on: string
  patients: Awaited<ReturnType<typeof patientsOn>>
  measures: Awaited<ReturnType<typeof measuresOn>>
}

export type OpenSnapshot = {
  ask: <Row>(question: Question<Row>, params?: Record<string, string | number | null>) => Promise<Row[]>
  close: () => void
}

export type MonthlyClinic = {
  /** Brings in one extract, whatever it rejects, as on the day of `now`. */
  bringIn: (folder: string, now: Date) => Promise<void>
  /** Builds the snapshot of a day (as known at an instant, if one is named) and answers for each of its months. */
  monthsOn: (now: Date, options?: { knownAt?: string; months?: number }) => Promise<MonthAnswer[]>
  /** Sets settings of the clinic by name; the next build reads them. */
  set: (settings: Partial<Settings>) => Promise<void>
  /** The snapshot built last, to be asked over one connection. */
  openSnapshot: () => Promise<OpenSnapshot>
  close: () => Promise<void>
}

const AsOf = z.object({ as_of: z.string() })

/** A clinic of its own in a record store and an engine, both real, without the processes of the command line. */
export async function openMonthlyClinic(timeZone: string): Promise<MonthlyClinic> {
  const store = await openStore()
  const scratch = temporaryFolder()
  const place = { databaseUrl: store.url, dataDir: path.join(scratch.folder, "data") }
  await store.client.query("insert into clinics(id, name, time_zone) values (1, 'Test clinic', $1)", [
    timeZone,
  ])

  return {
    async bringIn(folder, now) {
      const { status } = await runImport({
        ...place,
        ...{ location: folder, isFull: false, isDryRun: false, isAccepted: true },
        ...{ now, timeZone, say: () => {} },
      })
      if (status !== "done") throw new Error(`the import ended as ${status}`)
    },
    async monthsOn(now, { knownAt, months } = {}) {
      await buildSnapshot({ ...place, builtAt: now, todayIn: (zone) => plainToday(now, zone), knownAt })
      return readMonths(currentSnapshot(place.dataDir) ?? "", months)
    },
    async set(settings) {
      for (const [key, value] of Object.entries(settings))
        await store.client.query(
          `insert into settings(key, value) values ($1, $2)
           on conflict (key) do update set value = excluded.value`,
          [key, JSON.stringify(value)],
        )
    },
    async openSnapshot() {
      const { connection, close } = await openReadOnly(currentSnapshot(place.dataDir) ?? "")
      return { ask: (question, params) => askOn(connection, question, params), close }
    },
    async close() {
      await store.close()
      scratch.remove()
    },
  }
}

/** The answers for the latest months of a snapshot, latest first. */
async function readMonths(file: string, months = 37): Promise<MonthAnswer[]> {
  const { connection, close } = await openReadOnly(file)
  try {
    const asOfs = await askOn(connection, {
      sql: "select as_of from as_of_dates order by as_of desc",
      Row: AsOf,
    })
    const answers: MonthAnswer[] = []
    for (const { as_of: on } of asOfs.slice(0, months)) {
      const patients = await patientsOn(connection, on)
      answers.push({ on, patients, measures: await measuresOn(connection, on) })
    }
    return answers
  } finally {
    close()
  }
}

async function openReadOnly(file: string) {
  const instance = await DuckDBInstance.create(file, { access_mode: "READ_ONLY", threads: "2" })
  const connection = await instance.connect()
  return {
    connection,
    close() {
      connection.closeSync()
      instance.closeSync()
    },
  }
}
