import { createReadStream, createWriteStream } from "node:fs"
import { mkdir, writeFile } from "node:fs/promises"
import path from "node:path"
import { Readable } from "node:stream"
import { pipeline } from "node:stream/promises"
import pg from "pg"
import { from as copyFrom } from "pg-copy-streams"
import { runImport } from "../../lib/import/run"
import { median, printFigure, timeMs } from "./report"

/**
 * An import of readings into an empty clinic, against a bare COPY of the same file into a table with the same columns
 * and no index, in turn. Every run starts from an empty store.
 */
export async function benchImport(options: {
  databaseUrl: string
  dataDir: string
  workDir: string
  rows: number
  runs: number
}): Promise<void> {
  const folder = path.join(options.workDir, "readings-extract")
  await writeReadings(folder, options.rows)
  const bare: number[] = []
  const full: number[] = []
  for (let run = 0; run < options.runs; run += 1) {
    await emptyStore(options.databaseUrl)
    bare.push(await bareCopyMs(options.databaseUrl, path.join(folder, "readings.csv")))
    full.push(
      await timeMs(() =>
        runImport({
          databaseUrl: options.databaseUrl,
          dataDir: options.dataDir,
          location: folder,
          isFull: false,
          isDryRun: false,
          isAccepted: false,
          now: new Date("2026-10-31T12:00:00Z"),
          timeZone: "UTC",
          say: () => {},
        }),
      ),
    )
  }
  printFigure({
    what: `Import of ${options.rows.toLocaleString("en")} readings`,
    value: median(full),
    reference: median(bare),
    referenceWhat: "bare COPY of the same rows into a table without indexes",
    unit: "ms",
    limit: "within 4 is asked",
  })
}

const patients = 5000

async function writeReadings(folder: string, rows: number): Promise<void> {
  await mkdir(folder, { recursive: true })
  const people = Array.from({ length: patients }, (_, index) => `P${index},1950-01-01,female,2020-01-01`)
  await writeFile(
    path.join(folder, "patients.csv"),
    ["patient_id,birth_date,sex,registered_on", ...people, ""].join("\n"),
  )
  const settings = ["office", "home", "home", "home"]
  function* lines() {
    yield "patient_id,taken_at,systolic,diastolic,setting,pulse,reading_id\n"
    for (let row = 0; row < rows; row += 1) {
      const day = new Date(Date.UTC(2023, 0, 1) + (row % 1300) * 86_400_000).toISOString().slice(0, 10)
      yield (
        `P${row % patients},${day}T${String(8 + (row % 12)).padStart(2, "0")}:${String(row % 60).padStart(2, "0")}:00,` +
        `${105 + (row % 70)},${60 + (row % 40)},${settings[row % 4]},${60 + (row % 30)},R${row}\n`
      )
    }
  }
  await pipeline(Readable.from(lines()), createWriteStream(path.join(folder, "readings.csv")))
}

async function emptyStore(databaseUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    await client.query(
      `truncate staff, visits, appointments, readings, lab_results, medication_orders, problems, allergies, diet_records,
         patient_records, patients, rejected_rows, import_files, imports`,
    )
    await client.query("checkpoint")
  } finally {
    await client.end()
  }
}

async function bareCopyMs(databaseUrl: string, file: string): Promise<number> {
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  try {
    await client.query("drop table if exists bench_readings")
    await client.query(
      `create table bench_readings (patient_id text, taken_at timestamptz, systolic numeric, diastolic numeric, setting text,
         pulse numeric, reading_id text)`,
    )
    return await timeMs(() =>
      pipeline(
        createReadStream(file, { highWaterMark: 1 << 20 }),
        client.query(copyFrom("copy bench_readings from stdin (format csv, header)")),
      ),
    )
  } finally {
    await client.query("drop table if exists bench_readings")
    await client.end()
  }
}
