import { readdirSync, readFileSync, statSync } from "node:fs"
import path from "node:path"
import { parse } from "csv-parse/sync"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { z } from "zod"
import { deIdentify, type DeIdentified } from "../../../lib/engine/de-identify"
import { runImport } from "../../../lib/import/run"
import { canaryClinic, identifiers } from "../../fixtures/canary-clinic"
import { importExtract, openFolder } from "../../helpers/extract"
import { filtrate } from "../../helpers/filtrate"
import { openStore, type TestStore } from "../../helpers/open-store"

// Checked against the text of 45 CFR 164.514(b)(2)(i), whose letters the identifiers carry.

const folder = openFolder()
const outDir = path.join(folder.dir, "shared")
let store: TestStore
let made: DeIdentified
let texts: Map<string, string>

beforeAll(async () => {
  store = await openStore()
  await store.prisma.clinic.create({ data: { name: "Test clinic", timeZone: "UTC" } })
  await importExtract(store, folder.dir, canaryClinic, { isAccepted: true })
  made = await deIdentify({ databaseUrl: store.url, outDir })
  texts = new Map(readdirSync(outDir).map((name) => [name, readFileSync(path.join(outDir, name), "utf8")]))
})

afterAll(async () => {
  await store.close()
  folder.close()
})

const Rows = z.array(z.record(z.string(), z.string()))

function rowsOf(kind: string, where: (row: Record<string, string>) => boolean = () => true) {
  return Rows.parse(parse(texts.get(`${kind}.csv`) ?? "", { columns: true })).filter(where)
}

function codeOf(patientId: string): string {
  return made.key.find((one) => one.patientId === patientId)?.code ?? "nobody"
}

const ofCanary = (row: Record<string, string>) => row.patient_id === codeOf("MRN-77123")

const everything = () => [...texts.entries()].map(([name, text]) => `${name}\n${text}`).join("\n")

describe("the extract names nobody by", () => {
  test.each(Object.entries(identifiers).map(([letter, one]) => [letter, one.of, one.texts] as const))(
    "(%s) %s",
    (_letter, _of, canaries) => {
      const all = everything().toLowerCase()
      const source = Object.values(canaryClinic).flat().join("\n").toLowerCase()

      for (const canary of canaries) {
        expect(source).toContain(canary.toLowerCase())
        expect(all).not.toContain(canary.toLowerCase())
      }
    },
  )
})

test("no day of the clinic's files is in it, and no number of a patient, a row or a member of staff", () => {
  const source = Object.values(canaryClinic).flat().join("\n")
  const days = new Set(source.match(/\d{4}-\d{2}-\d{2}/g))
  const ids = new Set(source.match(/\b(?:N\d\d|V\d-N\d\d|STAFF-\d|ZZ-[A-Z]+-\d)\b/g))

  expect(days.size).toBeGreaterThan(20)
  expect(ids.size).toBeGreaterThan(30)
  for (const original of [...days, ...ids]) expect(everything()).not.toContain(original)
})

test("the days between the facts of a person stay, from day 0 on", () => {
  expect(rowsOf("patients", ofCanary)).toMatchObject([{ registered_on: "2001-01-01" }])
  // 17 Mar 2024 to 21 and 23 May and 20 Jun 2024 are 65, 67 and 95 days.
  expect(rowsOf("visits", ofCanary).map((row) => [row.started_on, row.ended_on])).toEqual([
    ["2001-03-07", "2001-03-09"],
    ["2001-04-06", ""],
  ])
})

test("everybody begins on the same day, whatever the year and the day were", () => {
  expect(new Set(rowsOf("patients").map((row) => row.registered_on))).toEqual(new Set(["2001-01-01"]))
})

test("whoever is over 89 on some day is in the one group of 90 and older, others keep their whole years", () => {
  expect(rowsOf("patients", ofCanary)[0]?.birth_date).toBe("1911-01-01")
  // Born 15 Jun 1950 and first there on 11 Jan 2023: 72.
  expect(rowsOf("patients", (row) => row.patient_id === codeOf("N01"))[0]?.birth_date).toBe("1929-01-01")
})

test("the order of a day stays without its times", () => {
  expect(rowsOf("readings", ofCanary).map((row) => [row.taken_at, row.systolic])).toEqual([
    ["2001-03-07T12:00", "150"],
    ["2001-03-07T12:01", "148"],
  ])
})

test("drugs and substances are named by what the lists know of them", () => {
  expect(rowsOf("medications", ofCanary)).toMatchObject([
    { drug: "lisinopril", dose: "10", dose_unit: "", code: "", route: "oral" },
    { drug: "other drug" },
  ])
  expect(rowsOf("allergies", ofCanary).map((row) => row.substance)).toEqual(["lisinopril", "other substance"])
})

test("words and codes that fewer than eleven people share are left out", () => {
  expect(rowsOf("patients", ofCanary)).toMatchObject([{ language: "", race: "", ethnicity: "" }])
  expect(rowsOf("patients", (row) => row.patient_id === codeOf("N02"))).toMatchObject([
    { language: "en", race: "White", ethnicity: "Not Hispanic or Latino" },
  ])
  expect(rowsOf("problems", ofCanary).map((row) => row.code)).toEqual(["I10"])
})

test("merged records are one person, and codes are random: another time they are others", async () => {
  const again = await deIdentify({ databaseUrl: store.url, outDir: path.join(folder.dir, "again") })
  const codes = new Set(made.key.map((one) => one.code))

  expect(made.rows.patients).toBe(13)
  expect(again.key.filter((one) => codes.has(one.code))).toEqual([])
})

test("the program takes it in again, every row of it", async () => {
  const other = await openStore()
  const outcome = await runImport({
    ...{ databaseUrl: other.url, dataDir: folder.dir, location: outDir, timeZone: "UTC" },
    ...{
      isFull: false,
      isDryRun: false,
      isAccepted: false,
      now: new Date("2026-03-15T18:00:00Z"),
      say: () => {},
    },
  })
  await other.close()

  expect(outcome.status).toBe("done")
  for (const file of outcome.files) {
    expect(file).toMatchObject({ rejected: 0, held: 0, added: file.dataRows })
    expect(made.rows).toHaveProperty(file.kind, file.dataRows)
    expect(file.notes.unknownColumns).toEqual([])
  }
  expect(outcome.files.map((file) => file.kind)).toHaveLength(10)
})

test("only its owner may read it", () => {
  expect(statSync(outDir).mode & 0o777).toBe(0o700)
  for (const name of texts.keys()) expect(statSync(path.join(outDir, name)).mode & 0o777).toBe(0o600)
})

test("the command writes the key only where asked, and is on record", async () => {
  const env = { DATABASE_URL: store.url, FILTRATE_DATA: folder.dir, FILTRATE_TIME_ZONE: "UTC" }
  const keyFile = path.join(folder.dir, "key.csv")
  const out = path.join(folder.dir, "by-command")

  const finished = await filtrate(["deidentify", "--out", out, "--key-file", keyFile], env)
  const second = await filtrate(["deidentify", "--out", out], env)
  const inside = await filtrate(["deidentify", "--out", `${out}2`, "--key-file", `${out}2/key.csv`], env)

  expect(finished.stderr).not.toContain("MRN-77123")
  expect(finished.exitCode).toBe(0)
  expect(finished.stdout).toContain("patients.csv\t13")
  expect(readFileSync(keyFile, "utf8")).toMatch(/^P[0-9A-F]{10},"MRN-77123"$/m)
  expect(statSync(keyFile).mode & 0o777).toBe(0o600)
  expect([second.exitCode, inside.exitCode]).toEqual([2, 2])
  expect(await store.prisma.auditEntry.findMany({ where: { action: "record.de-identify" } })).toMatchObject([
    { outcome: "done", detail: { patients: 13, hasKey: true } },
  ])
})
