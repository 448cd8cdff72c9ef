import { readdirSync, writeFileSync } from "node:fs"
import path from "node:path"
import { pathToFileURL } from "node:url"
import { DuckDBInstance } from "@duckdb/node-api"
import { tableFromIPC } from "apache-arrow"
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest"
import { z } from "zod"
import { wholeClinic, type Scope } from "../../../lib/access/scope"
import { askAsArrow } from "../../../lib/engine/arrow"
import { paramsOf } from "../../../lib/engine/compute"
import { askOn, onDay } from "../../../lib/engine/run"
import { attachWithin } from "../../../lib/engine/scope"
import { askWithin } from "../../../lib/engine/scoped"
import { snapshotMeta, type SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { whatIf } from "../../../lib/engine/what-if"
import { runImport } from "../../../lib/import/run"
import { refresh } from "../../../lib/jobs/refresh"
import { measures } from "../../../lib/measures/index"
import { wordedMeasures } from "../../../lib/measures/worded-measures"
import { measureMonths } from "../../../lib/questions/measure-months"
import { patientTable } from "../../../lib/questions/patient-table"
import { triedPeople } from "../../../lib/questions/tried-people"
import { standingsMoved } from "../../../lib/questions/standings-moved"
import { writeDemoClinic } from "../../../seed/write-demo-clinic"
import { openStore, type TestStore } from "../../helpers/open-store"
import { temporaryFolder } from "../../helpers/temporary-folder"

// The month of the latest data is over, so that the days do not depend on whose data it is.
const now = new Date("2025-10-05T12:00:00Z")

const Asked = z.object({ sql: z.string(), Row: z.instanceof(z.ZodType) })
type Asked = { name: string; sql: string; Row: z.ZodType }

const Person = z.object({
  patient_id: z.string(),
  public_id: z.string(),
  site: z.string().nullable(),
  clinician_id: z.string().nullable(),
})
type Person = z.infer<typeof Person>

const everyone = {
  sql: "select patient_id, public_id, site, clinician_id from people order by patient_id",
  Row: Person,
}

let store: TestStore
let scratch: ReturnType<typeof temporaryFolder>
let dataDir: string
let meta: SnapshotMeta
let people: Person[]
let questions: Asked[]

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Kidney clinic", timeZone: "UTC" } })
  scratch = temporaryFolder()
  dataDir = path.join(scratch.folder, "data")
  const location = path.join(scratch.folder, "extract")
  writeDemoClinic({ folder: location, patients: 120, seed: 3, through: "2025-09-17" })
  await runImport({
    ...{ databaseUrl: store.url, dataDir, location, timeZone: "UTC", now, say: () => {} },
    ...{ isFull: false, isDryRun: false, isAccepted: true },
  })
  await refresh({ databaseUrl: store.url, dataDir, now })
  process.env.FILTRATE_DATA = dataDir
  meta = await snapshotMeta(wholeClinic)
  people = await askWithin(wholeClinic, everyone)
  questions = await everyQuestion()
})

beforeEach(() => {
  process.env.FILTRATE_DATA = dataDir
})

afterAll(async () => {
  delete process.env.FILTRATE_DATA
  await store.close()
  scratch.remove()
})

/** Every question of the folder: those that are one, and those that are one for each measure. */
async function everyQuestion(): Promise<Asked[]> {
  const folder = path.resolve("lib/questions")
  const found: Asked[] = []
  for (const file of readdirSync(folder)) {
    const exported: Record<string, unknown> = await import(pathToFileURL(path.join(folder, file)).href)
    for (const [name, value] of Object.entries(exported))
      for (const [of, one] of isFunction(value) ? forEachMeasure(value) : [["", value] as const]) {
        const asked = Asked.safeParse(one)
        if (asked.success) found.push({ name: `${file} ${name} ${of}`.trim(), ...asked.data })
      }
  }
  return found
}

function isFunction(value: unknown): value is (measure: unknown) => unknown {
  return typeof value === "function"
}

function forEachMeasure(ask: (measure: unknown) => unknown): (readonly [string, unknown])[] {
  return wordedMeasures(meta.settings).flatMap((measure) => {
    try {
      return [[measure.id, ask(measure)] as const]
    } catch {
      return []
    }
  })
}

/** All that a question may be given; one that wants something else cannot be asked, and fails here until it is named. */
function paramsFor(person: Person) {
  return {
    ...{ as_of: meta.runningAsOf, earlier_as_of: meta.asOfs.at(-2) ?? "" },
    home_window_days: meta.settings["bp.homeWindowDays"],
    ...{ on: "2025-09-18", today: "2025-09-18" },
    ...{ public_id: person.public_id, record_id: person.patient_id },
    // A page of a list asks for everybody by name, so that only the scope can keep somebody back.
    listed_ids: people.map((one) => one.public_id).join(","),
    ...{ series: "recorded", limit: 1000, offset: 0 },
    ...{ standing: "not met", change: null, cause: null, detail: null, reason: null, clinician: null },
    ...{ group_id: null, clinician_id: null },
    ...{ site: null, sex: null, age: null, language: null, race: null, ethnicity: null },
    ...paramsOf(measures, meta.settings),
  }
}

const nobody: Person = {
  ...{ patient_id: "nobody", public_id: "00000000-0000-4000-8000-000000000000" },
  ...{ site: null, clinician_id: null },
}

function isIn(scope: Scope, person: Person): boolean {
  const isOfPanel = scope.panelOf === null || person.clinician_id === scope.panelOf
  return isOfPanel && (scope.sites === null || (person.site !== null && scope.sites.includes(person.site)))
}

/** A clinic that never had anybody else: their records are withdrawn for the time of one build. */
async function clinicOf(scope: Scope): Promise<string> {
  const elsewhere = path.join(scratch.folder, JSON.stringify(scope).replaceAll(/\W+/g, "-"))
  const Identity = z.object({ record_id: z.string(), patient_id: z.string() })
  const identities = await askWithin(wholeClinic, {
    sql: "select record_id, patient_id from identities",
    Row: Identity,
  })
  const own = new Set(people.filter((person) => isIn(scope, person)).map((person) => person.patient_id))
  const others = identities.filter((one) => !own.has(one.patient_id)).map((one) => one.record_id)
  const withdrawn = "and ended_at = '2025-10-04' and patient_id = any($1)"
  await store.client.query(
    `update patient_records set ended_at = '2025-10-04', ended_by = 1, end_reason = 'withdrawn'
     where ended_at is null and patient_id = any($1)`,
    [others],
  )
  await refresh({ databaseUrl: store.url, dataDir: elsewhere, now })
  await store.client.query(
    `update patient_records set ended_at = null, ended_by = null, end_reason = null where true ${withdrawn}`,
    [others],
  )
  return elsewhere
}

async function askIn<T>(folder: string, work: () => Promise<T>): Promise<T> {
  process.env.FILTRATE_DATA = folder
  try {
    return await work()
  } finally {
    process.env.FILTRATE_DATA = dataDir
  }
}

/** Asked within a what-if alone, further below. */
const ofWhatIf = ["standings-moved.ts standingsMoved", "tried-people.ts triedPeople"]

it("finds the questions it asks", () => {
  const files = new Set(questions.map((question) => question.name.split(" ")[0]))
  const parts = [
    "drug-evidence.ts",
    "evidence-fact.ts",
    "fact-rows.ts",
    "facts-behind.ts",
    "change-causes.ts",
    "changes-since-closing.ts",
    "pressure-evidence.ts",
    "resistance-details.ts",
    "several-classes-findings.ts",
    "potassium-advice.ts",
    "class-guidance-rules.ts",
    "protection-groups.ts",
    "decision-in-force.ts",
    "list-person.ts",
    "person-conditions.ts",
    "ran-out.ts",
    "listed-ids.ts",
    "own-people.ts",
    "own-change-steps.ts",
    "urgent-now.ts",
    "starting-and-stopping-groups.ts",
    "starting-and-stopping-rows.ts",
    "sodium-behind.ts",
  ]
  const askedElsewhere = ["patient-table.ts"]
  const asked = [...files, ...parts, ...askedElsewhere].sort()

  expect(asked).toEqual(readdirSync("lib/questions").sort())
  expect(questions.length).toBeGreaterThan(100)
})

const scopes: { whose: string; scopeOf: () => Scope }[] = [
  { whose: "one clinician's panel", scopeOf: () => ({ sites: null, panelOf: clinicians()[0] ?? "" }) },
  { whose: "another clinician's panel", scopeOf: () => ({ sites: null, panelOf: clinicians()[1] ?? "" }) },
  { whose: "one site", scopeOf: () => ({ sites: sites().slice(0, 1), panelOf: null }) },
]

/** The largest panels first. */
function clinicians(): string[] {
  const count = (id: string) => people.filter((person) => person.clinician_id === id).length
  const ids = new Set(people.flatMap((person) => person.clinician_id ?? []))
  return [...ids].sort((one, other) => count(other) - count(one) || one.localeCompare(other))
}

function sites(): string[] {
  return [...new Set(people.flatMap((person) => person.site ?? []))].sort()
}

describe.each(scopes)("of $whose", { timeout: 240_000 }, ({ scopeOf }) => {
  let scope: Scope
  let own: Person[]
  let others: Person[]
  let alone: string

  beforeAll(async () => {
    process.env.FILTRATE_DATA = dataDir
    scope = scopeOf()
    own = people.filter((person) => isIn(scope, person))
    others = people.filter((person) => !isIn(scope, person))
    alone = await clinicOf(scope)
  })

  it("some people are, and more are not", () => {
    expect(own.length).toBeGreaterThan(5)
    expect(others.length).toBeGreaterThan(own.length / 2)
  })

  it("every question answers as in a clinic that has nobody else", async () => {
    const person = own[0] ?? nobody
    for (const question of questions.filter((one) => !ofWhatIf.includes(one.name))) {
      const within = await askWithin(scope, question, paramsFor(person))
      const there = await askIn(alone, () => askWithin(wholeClinic, question, paramsFor(person)))

      expect({ [question.name]: within }).toEqual({ [question.name]: there })
    }
  })

  it("no answer names anybody else", async () => {
    const names = others.flatMap((person) => [person.patient_id, person.public_id])
    for (const question of questions.filter((one) => !ofWhatIf.includes(one.name))) {
      const text = JSON.stringify(await askWithin(scope, question, paramsFor(own[0] ?? nobody)))
      const told = names.filter((name) => text.includes(`"${name}"`))

      expect({ [question.name]: told }).toEqual({ [question.name]: [] })
    }
  })

  it("who asks for anybody else is answered as if there were no such person", async () => {
    const aboutPeople = questions.filter((one) => /\$(public_id|record_id)\b/.test(one.sql))
    expect(aboutPeople.length).toBeGreaterThan(8)
    for (const question of aboutPeople)
      for (const person of others.slice(0, 5)) {
        const answer = await askWithin(scope, question, paramsFor(person))

        expect({ [question.name]: answer }).toEqual({
          [question.name]: await askWithin(scope, question, paramsFor(nobody)),
        })
      }
  })

  it("the large table holds the same people", async () => {
    const day = { as_of: meta.runningAsOf }
    const within = tableFromIPC(await askAsArrow(scope, patientTable, day))
    const there = tableFromIPC(await askIn(alone, () => askAsArrow(wholeClinic, patientTable, day)))

    expect(within.toString()).toBe(there.toString())
    expect(within.numRows).toBeGreaterThan(5)
  })

  it("another day, and another choice of settings, are computed over the same people", async () => {
    const answers = async (options: { dataDir: string; scope: Scope }) => ({
      day: await onDay({ ...options, asOf: "2025-06-11", settings: meta.settings }, (connection) =>
        askOn(connection, measureMonths),
      ),
      tried: await whatIf(
        {
          ...options,
          settings: {
            ...meta.settings,
            "bp.systolicTarget": 120,
            "drugs.graceDays": 0,
            "diet.limitMg": 1500,
          },
          changed: ["bp.systolicTarget", "drugs.graceDays", "diet.limitMg"],
          asOf: meta.runningAsOf,
        },
        async (connection) => ({
          months: await askOn(connection, measureMonths),
          moved: await askOn(connection, standingsMoved),
          people: await askOn(connection, triedPeople, { limit: 1000 }),
        }),
      ),
    })

    const within = await answers({ dataDir, scope })

    expect(within).toEqual(await answers({ dataDir: alone, scope: wholeClinic }))
    expect(within.tried.moved.some((one) => one.people > 0)).toBe(true)
  })
})

describe("opening a part of the clinic", () => {
  it("gives nobody to an own panel without a link to the staff list", async () => {
    expect(await askWithin({ sites: null, panelOf: "" }, everyone)).toEqual([])
  })

  it("lets no statement reach another file", async () => {
    const scope = { sites: null, panelOf: clinicians()[0] ?? "" }
    const other = path.join(scratch.folder, "other.csv")
    writeFileSync(other, "words\na remark\n")

    const read = { sql: `select words from read_csv('${other}')`, Row: z.object({ words: z.string() }) }

    await expect(askWithin(scope, read)).rejects.toThrow(/disabled|Permission/)
    await expect(askWithin(wholeClinic, read)).resolves.toEqual([{ words: "a remark" }])
  })

  it("fails when a table neither has a patient in it nor is known to have none", async () => {
    const file = path.join(scratch.folder, "unknown.duckdb")
    const made = await DuckDBInstance.create(file)
    const making = await made.connect()
    await making.run("create table people(patient_id varchar, site varchar, clinician_id varchar)")
    await making.run("create table remarks as select 'a remark' as words")
    making.closeSync()
    made.closeSync()
    const instance = await DuckDBInstance.create(":memory:")
    const connection = await instance.connect()

    await expect(
      attachWithin(connection, { file, scope: { sites: ["North"], panelOf: null } }),
    ).rejects.toThrow("no list says whose these tables are: remarks")
    connection.closeSync()
    instance.closeSync()
  })
})
