import { readdirSync, readFileSync, statSync } from "node:fs"
import path from "node:path"
import pg from "pg"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { z } from "zod"
import { openEmbedded, type OpenDatabase } from "../../../lib/store/embedded"
import { writeExtract } from "../../helpers/extract"
import { filtrate } from "../../helpers/filtrate"
import { temporaryFolder } from "../../helpers/temporary-folder"

// A clinic with a database of its own, so that its files can be searched as well as its tables.

const number = "MRN-77123"
const canaries = [
  number,
  "MRN-OLD-5",
  "Zzcanaria",
  "Quillfeather",
  "555-0142",
  "zz@canary.example",
  "zzcustom",
]
const temporary = temporaryFolder()
const dataDir = path.join(temporary.folder, "data")
const env = { FILTRATE_DATA: dataDir, FILTRATE_TIME_ZONE: "UTC" }

const others = Array.from({ length: 8 }, (_, place) => `N${place + 1}`)

const extract = {
  staff: ["staff_id,name,role,site", "S-1,Dr A,nephrologist,North"],
  patients: [
    "patient_id,given_name,family_name,birth_date,sex,phone,email,clinician_id,registered_on,merged_into",
    `${number},Zzcanaria,Quillfeather,1950-02-03,female,555-0142,zz@canary.example,S-1,2024-01-01,`,
    `MRN-OLD-5,Zzcanaria,Quillfeather,1950-02-03,female,,,,2024-01-01,${number}`,
    "BAD,Zzcanaria,Quillfeather,no day,female,,,,2024-01-01,",
    ...others.map((id) => `${id},Plain,Person ${id},1960-06-15,male,,,S-1,2024-01-01,`),
  ],
  visits: [
    "visit_id,patient_id,started_on,kind",
    `ZV-1,${number},2026-01-10,office`,
    "ZV-2,MRN-OLD-5,2025-02-10,office",
    `ZV-3,${number},no day,office`,
    ...others.map((id) => `V-${id},${id},2026-01-12,office`),
  ],
  readings: [
    "patient_id,taken_at,systolic,diastolic,setting",
    `${number},2026-01-10,171,91,office`,
    ...others.map((id, place) => `${id},2026-01-12,${120 + 5 * place},76,office`),
  ],
  medications: [
    "patient_id,drug,started_on",
    `${number},zzcustom,2026-01-10`,
    ...others.map((id) => `${id},Losartan 50 mg,2026-01-12`),
  ],
  problems: ["patient_id,code,onset_on", ...[number, ...others].map((id) => `${id},I10,2025-01-12`)],
}

let database: OpenDatabase
let client: pg.Client
let before: { patients: unknown[]; month: string }
let publicId: string

const Patients = z.object({ patients: z.array(z.looseObject({ patient_id: z.string() })) })

async function run(...args: string[]) {
  const finished = await filtrate(args, env)
  return { ...finished, all: finished.stdout + finished.stderr }
}

async function patientsOnADay() {
  const { stdout } = await run("patients", "--on", "2026-02-28", "--json")
  return Patients.parse(JSON.parse(stdout)).patients
}

beforeAll(async () => {
  database = await openEmbedded({ dataDir })
  await run("import", writeExtract(temporary.folder, extract), "--accept")
  await run(
    "import",
    writeExtract(temporary.folder, {
      visits: ["visit_id,patient_id,started_on,kind", `ZV-1,${number},2026-01-11,office`],
    }),
  )
  client = new pg.Client({ connectionString: database.url })
  await client.connect()
  await client.query("insert into drug_name_mappings(text, ingredients) values ('zzcustom', '{losartan}')")
  // Written before the check of names, or under a name nobody had on record then.
  await client.query(
    `insert into chart_notes(on_day, text, made_by, made_at)
     values ('2026-01-10', 'Cuff changed after Quillfeather', 'Lead', now())`,
  )
  await client.query(
    `insert into measure_actions(measure_id, month, kind, text, owner, outcome, state, made_by, made_at, closed_at)
     values ('acr-tested', '2026-01', 'action', 'Call Quillfeather', 'Nurses', '${number} came', 'done', 'Lead', now(), now())`,
  )
  await client.query(
    `insert into chart_baselines(measure_id, from_month, reason, made_by, made_at)
     values ('acr-tested', '2025-01', 'Since the tests of ${number}', 'Lead', now())`,
  )
  await run("refresh")
  await client.query(
    `insert into outreach_cases(patient_id, state, opened_at, looked_on)
     values ('N1', 'open', now(), '2026-01-31'), ($1, 'open', now(), '2026-01-31') on conflict do nothing`,
    [number],
  )
  await client.query(
    `insert into outreach_events(case_id, patient_id, kind, on_day, at, by_name, to_state, round, note)
     select id, patient_id, 'note', '2026-01-31', now(), 'Lead', 'open', 1, 'Sister of Quillfeather' from outreach_cases
     where patient_id in ('N1', $1)`,
    [number],
  )
  await client.query(
    `insert into clinician_decisions(patient_id, topic, kind, reason, note, made_on, made_at, made_by, made_by_id)
     select id, 'diet', 'patient declined', 'other', 'Sister of Quillfeather', '2026-01-31', now(), 'Lead', gen_random_uuid()
     from unnest(array['N1', $1]) as id`,
    [number],
  )
  await client.query("vacuum analyze")
  const found = await client.query("select public_id from patients where patient_id = $1", [number])
  publicId = z.object({ public_id: z.string() }).parse(found.rows[0]).public_id
  before = {
    patients: await patientsOnADay(),
    month: (await run("measures", "--month", "2026-01", "--json")).stdout,
  }
})

afterAll(async () => {
  await client.end()
  await database.close()
  temporary.remove()
})

/** Every file under the data folder that holds one of the texts. */
function filesWith(texts: readonly string[]): string[] {
  return readdirSync(dataDir, { recursive: true, encoding: "utf8" })
    .map((name) => path.join(dataDir, name))
    .filter((file) => statSync(file).isFile())
    .filter((file) => {
      const bytes = readFileSync(file)
      return texts.some((text) => bytes.includes(text))
    })
    .map((file) => path.relative(dataDir, file))
}

/** Every table with a row whose text holds one of the texts. */
async function tablesWith(texts: readonly string[]): Promise<string[]> {
  const tables = await client.query<{ name: string }>(
    "select tablename as name from pg_tables where schemaname = 'public' order by 1",
  )
  const found: string[] = []
  for (const { name } of tables.rows) {
    const rows = await client.query(`select t::text as line from ${name} as t`)
    const lines = z.array(z.object({ line: z.string() })).parse(rows.rows)
    if (lines.some(({ line }) => texts.some((text) => line.toLowerCase().includes(text.toLowerCase()))))
      found.push(name)
  }
  return found
}

describe("an erasure", () => {
  test("is not asked for in words that name the person", async () => {
    const asked = ["erase", "--patient", number, "--basis", "court order 4"]

    const byName = await run(...asked, "--reason", "Ms quillfeather asks for it")
    const byNumber = await run(...asked, "--reason", `the person of ${number} asks`)
    const withoutBasis = await run("erase", "--patient", number, "--reason", "the person asks for it")

    expect([byName.exitCode, byNumber.exitCode, withoutBasis.exitCode]).toEqual([2, 2, 2])
    expect(byName.all).toContain("must not name the person")
  })

  test("is asked for once, and carried out only with the number typed again", async () => {
    const asked = [
      "erase",
      "--patient",
      "MRN-OLD-5",
      "--reason",
      "the person asks for it",
      "--basis",
      "court order 4",
    ]

    const first = await run(...asked)
    const second = await run(...asked)
    const wrong = await run("erase", "1", "--confirm", "N1")
    const none = await run("erase", "1")
    const unknown = await run("erase", "2", "--confirm", number)

    expect(first.stdout).toContain("Request 1 is on record.")
    expect([second.exitCode, wrong.exitCode, none.exitCode, unknown.exitCode]).toEqual([2, 2, 2, 2])
    expect((await run("erase")).stdout).toContain("to be carried out")
    expect((await tablesWith([number])).length).toBeGreaterThan(5)
  })

  test("leaves no trace in a table or a file", async () => {
    expect(await tablesWith(canaries)).toEqual(
      expect.arrayContaining([
        "clinician_decisions",
        "drug_name_mappings",
        "outreach_cases",
        "outreach_events",
        "patient_records",
        "readings",
        "rejected_rows",
        "visits",
      ]),
    )
    await client.query("checkpoint")
    expect(filesWith(canaries).length).toBeGreaterThan(5)

    const finished = await run("erase", "1", "--confirm", number)

    expect(finished.stderr).not.toContain("Zzcanaria")
    expect(finished.exitCode).toBe(0)
    expect(await tablesWith(canaries)).toEqual([])
    await client.query("checkpoint")
    expect(filesWith(canaries)).toEqual([])
    expect((await run("erase")).stdout).toContain("carried out")
  })

  test("is on record by the opaque id alone", async () => {
    const entries = await client.query(
      `select e.action, e.people, p.public_id from audit_entries e join audit_people p using (people_hash)
       where e.action = 'record.erase' and p.public_id = $1`,
      [publicId],
    )

    expect(entries.rows).toMatchObject([{ action: "record.erase", people: 2, public_id: publicId }])
    expect((await run("audit", "verify")).exitCode).toBe(0)
  })

  test("changes nobody else's standings or values", async () => {
    const after = await patientsOnADay()

    expect(before.patients).toHaveLength(9)
    expect(after).toEqual(Patients.parse(before).patients.filter((one) => one.patient_id !== number))
  })

  test("keeps the figures of closed months as they stood", async () => {
    const kept = await run("measures", "--month", "2026-01", "--kept", "1")
    const now = await run("measures", "--month", "2026-01", "--json")

    expect(JSON.parse(kept.stdout)).toEqual(JSON.parse(before.month))
    expect(JSON.parse(now.stdout)).not.toEqual(JSON.parse(before.month))
    expect((await run("measures", "--month", "2026-01", "--kept", "2")).exitCode).toBe(2)
  })

  test("is not carried out twice", async () => {
    expect((await run("erase", "1", "--confirm", number)).exitCode).toBe(2)
  })
})

describe("the same extract again", () => {
  test("brings nobody back, says why, and keeps no text of the rows", async () => {
    const finished = await run("import", writeExtract(temporary.folder, extract), "--accept")

    expect(finished.exitCode).toBe(0)
    expect(finished.stdout).toContain("is the number of a record that was erased")
    // The row with an unreadable birth date came under another number, which nobody was erased under.
    const known = canaries.filter((text) => !/Zzcanaria|Quillfeather/.test(text))
    expect(await tablesWith(known)).toEqual([])
    const rejected = await client.query(
      "select file, value, original from rejected_rows where code = 'erased' order by file, line",
    )
    expect(rejected.rows.map((row: { file: string }) => row.file)).toEqual([
      ...["medications.csv", "patients.csv", "patients.csv", "problems.csv", "readings.csv"],
      ...["visits.csv", "visits.csv", "visits.csv"],
    ])
    for (const row of rejected.rows) expect(row).toMatchObject({ value: null, original: "" })
    expect(await patientsOnADay()).toHaveLength(8)
  })

  test("holds no text of a line that cannot be read, and no link to the person", async () => {
    const again = {
      patients: [
        "patient_id,birth_date,sex,registered_on,merged_into",
        `N9,1960-06-15,male,2024-01-01,${number}`,
        `${number},1950-02-03`,
        `N10,1960-06-15,nobody,2024-01-01,${number}`,
      ],
    }

    const finished = await run("import", writeExtract(temporary.folder, again), "--accept")

    expect(finished.exitCode).toBe(0)
    expect(await tablesWith([number])).toEqual([])
    const kept = await client.query("select merged_into from patient_records where patient_id = 'N9'")
    expect(kept.rows).toEqual([{ merged_into: null }])
  })
})
