import { readdirSync, readFileSync } from "node:fs"
import path from "node:path"
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest"
import { z } from "zod"
import { proposeSettings } from "../../../lib/domain/setting-proposal"
import { settingKeys } from "../../../lib/domain/setting-values"
import { defaultSettings, type SettingKey } from "../../../lib/domain/settings"
import { wholeClinic } from "../../../lib/access/scope"
import { askOn } from "../../../lib/engine/run"
import { askWithin } from "../../../lib/engine/scoped"
import { snapshotMeta, type SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { currentSnapshot, snapshotDir } from "../../../lib/engine/snapshot"
import { whatIf } from "../../../lib/engine/what-if"
import { runImport } from "../../../lib/import/run"
import { refresh } from "../../../lib/jobs/refresh"
import { measures } from "../../../lib/measures/index"
import { dietMonths } from "../../../lib/questions/diet-months"
import { measureInMonth } from "../../../lib/questions/measure-in-month"
import { measureMonths } from "../../../lib/questions/measure-months"
import { triedPeople, type TriedPerson } from "../../../lib/questions/tried-people"
import { pressureLimits } from "../../../lib/questions/pressure-limits"
import { standingsMoved } from "../../../lib/questions/standings-moved"
import { commandActor } from "../../../lib/store/audit-actors"
import { saveSettings } from "../../../lib/store/settings"
import { writeDemoClinic } from "../../../seed/write-demo-clinic"
import { openStore, type TestStore } from "../../helpers/open-store"
import { temporaryFolder } from "../../helpers/temporary-folder"

const now = new Date("2025-09-20T12:00:00Z")

let store: TestStore
let scratch: ReturnType<typeof temporaryFolder>
let dataDir: string
let rebuilds = 0

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { id: 1, name: "Kidney clinic", timeZone: "UTC" } })
  scratch = temporaryFolder()
  dataDir = path.join(scratch.folder, "data")
  const location = path.join(scratch.folder, "extract")
  writeDemoClinic({ folder: location, patients: 150, seed: 5, through: "2025-09-17" })
  const import_ = {
    location,
    dataDir,
    isFull: false,
    isDryRun: false,
    isAccepted: true,
    timeZone: "UTC",
    now,
  }
  await runImport({ databaseUrl: store.url, say: () => {}, ...import_ })
  await refresh({ databaseUrl: store.url, dataDir, now })
})

beforeEach(() => {
  process.env.FILTRATE_DATA = dataDir
})

afterAll(async () => {
  delete process.env.FILTRATE_DATA
  await store.close()
  scratch.remove()
})

async function underSettings(texts: Partial<Record<SettingKey, string>>) {
  return over(await snapshotMeta(wholeClinic), texts)
}

/** The same, begun at once. */
function over(
  meta: SnapshotMeta,
  texts: Partial<Record<SettingKey, string>>,
  besides: readonly SettingKey[] = [],
) {
  const proposal = proposeSettings(meta.settings, texts)
  const { settings } = proposal
  const changed = [...proposal.changed, ...besides]
  expect(proposal.problems).toEqual([])
  return whatIf(
    { dataDir, scope: wholeClinic, settings, changed, asOf: meta.runningAsOf },
    async (connection) => ({
      months: await askOn(connection, measureMonths),
      inMonth: await askOn(connection, measureInMonth),
      diet: await askOn(connection, dietMonths),
      moved: await askOn(connection, standingsMoved),
      limits: await askOn(connection, pressureLimits),
      people: await askOn(connection, triedPeople, { limit: 1000 }),
    }),
  )
}

/** The same settings saved and everything computed anew, in a data folder of its own. */
async function rebuiltWith(texts: Partial<Record<SettingKey, string>>) {
  await store.client.query("truncate settings, setting_changes")
  if (Object.keys(texts).length > 0)
    await saveSettings(store.prisma, { texts, by: commandActor(), reason: "a test", now })
  const elsewhere = path.join(scratch.folder, `rebuilt-${(rebuilds += 1)}`)
  await refresh({ databaseUrl: store.url, dataDir: elsewhere, now })
  process.env.FILTRATE_DATA = elsewhere
  const answers = {
    months: await askWithin(wholeClinic, measureMonths),
    inMonth: await askWithin(wholeClinic, measureInMonth),
    diet: await askWithin(wholeClinic, dietMonths),
  }
  await store.client.query("truncate settings, setting_changes")
  process.env.FILTRATE_DATA = dataDir
  return answers
}

const cases: Partial<Record<SettingKey, string>>[] = [
  { "bp.systolicTarget": "120" },
  // Of these every one is held late against what is stored; one of another kind beside them makes the facts be read anew.
  {
    "bp.systolicTarget": "140",
    "bp.diastolicTarget": "90",
    "bp.homeSystolicTarget": "130",
    "bp.homeDiastolicTarget": "85",
    "bp.ambulatorySystolicTarget": "128",
    "bp.ambulatoryDiastolicTarget": "82",
    "drugs.several": "4",
    "diet.limitMg": "3000",
  },
  { "bp.windowMonths": "2", "bp.freshDays": "20", "bp.lowSystolic": "119" },
  { "bp.windowMonths": "24", "bp.freshDays": "200", "bp.systolicTarget": "125" },
  {
    "bp.systolicTarget": "140",
    "bp.diastolicTarget": "90",
    "bp.homeSystolicTarget": "130",
    "bp.homeDiastolicTarget": "85",
    "bp.ambulatorySystolicTarget": "128",
    "bp.ambulatoryDiastolicTarget": "82",
    "bp.sameDay": "lowest",
    "drugs.counting": "both_separate",
    "drugs.several": "4",
  },
  {
    "bp.windowMonths": "6",
    "bp.freshDays": "20",
    "bp.homeWindowDays": "60",
    "bp.homeMinReadings": "8",
    "bp.homeMinDays": "2",
    "bp.lowSystolic": "119",
  },
  { "egfr.windowMonths": "9", "acr.windowMonths": "10" },
  { "egfr.windowMonths": "4" },
  { "acr.windowMonths": "36", "egfr.windowMonths": "50", "bp.systolicTarget": "125" },
  { "panel.visitMonths": "4" },
  { "panel.visitMonths": "40", "acr.windowMonths": "12", "bp.windowMonths": "6" },
  { "ras.fromCategory": "A3" },
  { "acr.a3": "ada", "ras.fromCategory": "A3", "acr.windowMonths": "14" },
  { "diet.windowDays": "20" },
  { "diet.windowDays": "365", "diet.limitMg": "2600", "acr.windowMonths": "15" },
  { "panel.visitMonths": "6", "egfr.windowMonths": "9", "acr.windowMonths": "10" },
  {
    "drugs.graceDays": "0",
    "drugs.overlapDays": "5",
    "acr.a3": "ada",
    "acr.confirmDays": "150",
    "ras.fromCategory": "A3",
    "kfre.region": "other",
    "kfre.maxGapDays": "20",
  },
  { "diet.limitMg": "3000", "diet.windowDays": "30", "diet.urineRecovery": "0.9", "decisions.months": "3" },
]

describe("what a choice would make of the history", () => {
  it("is tried here for every setting that can shape a figure", () => {
    const tried = new Set<string>(cases.flatMap((texts) => Object.keys(texts)))

    expect(
      settingKeys.filter((key) => !tried.has(key) && !/^(import|access|keep|reports|outreach)\./.test(key)),
    ).toEqual([])
  })

  it.each(cases)("equals the figures computed anew with %j saved", async (texts) => {
    const tried = await underSettings(texts)
    const rebuilt = await rebuiltWith(texts)

    expect(tried.months).toEqual(rebuilt.months)
    expect(tried.inMonth).toEqual(rebuilt.inMonth)
    expect(tried.diet).toEqual(rebuilt.diet)
    expect(tried.months.length).toBeGreaterThan(100)
    expect(tried.months).not.toEqual((await underSettings({})).months)
  })

  it("changes nothing while the settings are those of now", async () => {
    const tried = await underSettings({})
    const rebuilt = await rebuiltWith({})

    expect(tried).toMatchObject(rebuilt)
    expect(tried.moved).toEqual(measures.map((measure) => ({ measure_id: measure.id, people: 0 })))
  })

  it("counts the people who would stand elsewhere today", async () => {
    const meta = await snapshotMeta(wholeClinic)
    const sql = `select cast(count(*) as integer) as people from patient_month as p
      where p.is_running and p.in_panel and p.ckd and not (p.on_dialysis or p.transplant or p.palliative or p.pregnancy)
        and p.systolic between 120 and 129 and p.diastolic < 80 and p.bp_source <> 'ambulatory'`
    const [between] = await askWithin(wholeClinic, { sql, Row: z.object({ people: z.number() }) })

    const { moved } = await underSettings({ "bp.systolicTarget": "120" })

    const people = moved.find((one) => one.measure_id === "bp-at-target")?.people ?? 0
    expect(meta.settings).toEqual(defaultSettings)
    expect(between?.people).toBeGreaterThan(0)
    expect(people).toBeGreaterThanOrEqual(between?.people ?? 0)
  })

  it.each<Partial<Record<SettingKey, string>>>([
    { "bp.systolicTarget": "140", "bp.diastolicTarget": "90", "drugs.several": "2" },
    { "bp.windowMonths": "3", "bp.freshDays": "20", "bp.lowSystolic": "125" },
    { "diet.limitMg": "3000" },
    { "egfr.windowMonths": "7" },
    { "acr.windowMonths": "30" },
    { "ras.fromCategory": "A3" },
    { "panel.visitMonths": "3" },
    { "diet.windowDays": "25", "diet.limitMg": "2900" },
  ])(
    "tells the same of everybody from what is stored as from the facts read anew, with %j",
    async (texts) => {
      const meta = await snapshotMeta(wholeClinic)

      const late = await over(meta, texts)
      // A change of this kind, here from a value to the same, makes every view be run.
      const anew = await over(meta, texts, ["bp.sameDay"])

      const inOrder = (people: TriedPerson[]) => people.map((one) => JSON.stringify(one)).toSorted()
      expect(late.moved).toEqual(anew.moved)
      expect(inOrder(late.people)).toEqual(inOrder(anew.people))
      expect(late.months).toEqual(anew.months)
      expect(late.inMonth).toEqual(anew.inMonth)
      expect(late.people.length).toBeGreaterThan(3)
    },
  )

  it("names them, with where they stand now and would stand", async () => {
    // Of a pressure in the office or at home the limit goes from 130/80 to 120/80: whoever lies between leaves the target.
    const between = await askWithin(wholeClinic, {
      sql: `select p.public_id from patient_month as p
        where p.is_running and p.in_panel and p.ckd and not (p.on_dialysis or p.transplant or p.palliative or p.pregnancy)
          and p.systolic between 120 and 129 and p.diastolic < 80 and p.bp_source <> 'ambulatory'`,
      Row: z.object({ public_id: z.string() }),
    })
    const ambulatory = await askWithin(wholeClinic, {
      sql: "select p.public_id from patient_month as p where p.is_running and p.bp_source = 'ambulatory'",
      Row: z.object({ public_id: z.string() }),
    })
    const isAmbulatory = new Set(ambulatory.map((one) => one.public_id))

    const { people, moved } = await underSettings({ "bp.systolicTarget": "120" })

    const named = people.filter((one) => one.measure_id === "bp-at-target")
    expect(named.length).toBe(moved.find((one) => one.measure_id === "bp-at-target")?.people)
    expect(named.map(({ now, then }) => [now, then === "exception" ? "not met" : then])).toEqual(
      named.map(() => ["met", "not met"]),
    )
    expect(
      named
        .map((one) => one.public_id)
        .filter((id) => !isAmbulatory.has(id))
        .toSorted(),
    ).toEqual(between.map((one) => one.public_id).toSorted())
  })

  // The equivalents: Whelton 2018, ACC/AHA guideline, Hypertension 71:e13-e115, Table 11. It has no row for 125/75.
  it.each([
    ["140", "90", {}, ["140/90 clinic", "135/85 published", "130/80 published"]],
    ["125", "75", {}, ["125/75 clinic", "125/75 office", "125/75 office"]],
    [
      "125",
      "75",
      { "bp.homeSystolicTarget": "120", "bp.homeDiastolicTarget": "70" },
      ["125/75 clinic", "120/70 clinic", "125/75 office"],
    ],
  ])(
    "tells what a target of %s/%s becomes at home and over 24 hours, with %j",
    async (sys, dia, own, said) => {
      const { limits } = await underSettings({
        "bp.systolicTarget": sys,
        "bp.diastolicTarget": dia,
        ...own,
      })

      expect(limits.map((one) => `${one.systolic_limit}/${one.diastolic_limit} ${one.limit_basis}`)).toEqual(
        said,
      )
    },
  )

  it("leaves the snapshot as it was, and nothing beside it", async () => {
    const file = currentSnapshot(dataDir)
    const before = file ? readFileSync(file) : Buffer.alloc(0)
    const beside = readdirSync(snapshotDir(dataDir))

    await underSettings({ "bp.windowMonths": "6" })

    expect(before.length).toBeGreaterThan(0)
    expect(file ? readFileSync(file).equals(before) : false).toBe(true)
    expect(readdirSync(snapshotDir(dataDir))).toEqual(beside)
  })

  it("stops for a newer one, and the newest is answered", async () => {
    const meta = await snapshotMeta(wholeClinic)
    const [first, second, third] = await Promise.allSettled([
      over(meta, { "panel.visitMonths": "6" }),
      over(meta, { "panel.visitMonths": "7" }),
      over(meta, { "drugs.several": "4" }),
    ])

    expect(first).toMatchObject({ status: "rejected", reason: { code: "superseded" } })
    expect(second).toMatchObject({ status: "rejected", reason: { code: "superseded" } })
    expect(third.status).toBe("fulfilled")
    expect(readdirSync(snapshotDir(dataDir)).filter((name) => name.startsWith("build-"))).toEqual([])
  })
})
