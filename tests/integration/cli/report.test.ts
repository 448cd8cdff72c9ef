import { existsSync, readFileSync, statSync } from "node:fs"
import path from "node:path"
import { parse } from "csv-parse/sync"
import readWorkbook, { readSheet } from "read-excel-file/node"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { z } from "zod"
import { measures } from "../../../lib/measures/index"
import { handMadeClinics, writeClinic } from "../../fixtures/clinic"
import { faultsOf } from "../../helpers/fhir-validator"
import { importClinic, type ImportedClinic } from "../../helpers/import-clinic"
import { temporaryFolder } from "../../helpers/temporary-folder"

const Population = z.object({
  code: z.object({ coding: z.array(z.object({ code: z.string() })).optional(), text: z.string().optional() }),
  count: z.number().optional(),
  subjectResults: z.object({ reference: z.string() }).optional(),
})
const Resource = z.looseObject({
  resourceType: z.string(),
  id: z.string(),
  type: z.string().optional(),
  group: z
    .array(
      z.looseObject({
        population: z.array(Population),
        measureScore: z.looseObject({ value: z.number() }).optional(),
      }),
    )
    .optional(),
  entry: z.array(z.object({ item: z.object({ reference: z.string() }) })).optional(),
})
const FhirResource = z.looseObject({ resourceType: z.string() })
const Bundle = z.object({ entry: z.array(z.object({ fullUrl: z.string(), resource: Resource })) })
const Line = z.looseObject({
  ...{ id: z.string(), population: z.number(), met: z.number(), notMet: z.number(), unknown: z.number() },
  ...{ exception: z.number(), excluded: z.number(), rate: z.number().nullable() },
  ...{ low: z.number().nullable(), high: z.number().nullable() },
})

const [clinic] = handMadeClinics
if (!clinic) throw new Error("there is a hand-made clinic")
const month = clinic.on.slice(0, 7)
const familyName = "=Quillhaven"
/** The same people, each under a name that a spreadsheet could take for a formula. */
const named = {
  people: clinic.people.map(({ id, facts }) => ({
    id,
    facts: facts.map((fact) =>
      fact.file === "patients.csv" ? { ...fact, row: { ...fact.row, family_name: familyName } } : fact,
    ),
  })),
}

describe("the documents of a month", () => {
  const extract = temporaryFolder()
  const out = path.join(extract.folder, "out")
  // A clinic is brought in, asked and set as documents twice, each by a process of its own.
  const minutes = 600_000
  let imported: ImportedClinic
  let lines: z.infer<typeof Line>[]

  beforeAll(async () => {
    writeClinic(named, path.join(extract.folder, "extract"))
    imported = await importClinic({
      folder: path.join(extract.folder, "extract"),
      timeZone: clinic.timeZone,
    })
    const measures = await imported.measuresOn(clinic.on)
    lines = measures.flatMap((one) => (one.id === "diet-sodium" ? [] : [Line.parse(one)]))
    await imported.filtrate("report", "--month", month, "--out", out)
    await imported.filtrate("report", "--month", month, "--out", out, "--people", "--force")
  }, minutes)
  afterAll(async () => {
    await imported.close()
    extract.remove()
  })

  const read = (name: string) => readFileSync(path.join(out, name), "utf8")
  const bundle = (name: string) => Bundle.parse(JSON.parse(read(name)))

  test("as CSV have the counts and rates that are printed for the day", () => {
    const rows = z
      .array(z.record(z.string(), z.string()))
      .parse(parse(read(`month-${month}.csv`), { columns: true }))
      .filter((row) => row.as_of === clinic.on && row.measure !== "diet-sodium")

    expect(lines.length).toBeGreaterThan(20)
    expect(
      rows.map((row) =>
        [row.measure, row.population, row.met, row.not_met, row.unknown, row.excluded].join(),
      ),
    ).toEqual(
      expect.arrayContaining(
        lines.map((one) => [one.id, one.population, one.met, one.notMet, one.unknown, one.excluded].join()),
      ),
    )
    for (const line of lines) {
      const rate = rows.find((row) => row.measure === line.id)?.rate
      expect(rate === "" ? null : Number(rate)).toBe(line.rate)
    }
  })

  test("as XLSX have the counts, rates and intervals that are printed for the day", async () => {
    const book = path.join(out, `month-${month}.xlsx`)
    const name = (id: string) => measures.find((one) => one.id === id)?.name ?? ""
    const heads = ["People asked", "Excluded", "Not measured", "Met", "Documented reason", "Not met"]
    const printed = lines.map((one) => [
      ...[name(one.id), one.population, one.excluded, one.unknown, one.met, one.exception, one.notMet],
      ...[countedOf(one) < 20 ? null : one.rate, one.low, one.high],
    ])

    const [, , head = [], ...rows] = await readSheet(book, "Month")
    const places = ["Measure", ...heads, "Rate", "95% interval from", "95% interval to"].map((one) =>
      head.indexOf(one),
    )
    const written = rows.map((row) => places.map((place) => row[place]))

    expect(written).toEqual(expect.arrayContaining(printed))
    expect(printed.some((one) => one[7] !== null)).toBe(true)
    expect(printed.some((one) => one[7] === null)).toBe(true)
    const sheets = await readWorkbook(book)
    for (const one of printed) {
      const title = `${String(one[0])}. `
      const sheet = sheets.find(({ data }) => String(data[0]?.[0]).startsWith(title))
      const [, , , ...months] = sheet?.data ?? []
      const own = months.find(([day]) => String(day) === String(new Date(`${clinic.on}T00:00:00Z`)))
      expect(own?.slice(1, 11).filter((_, place) => place !== 6)).toEqual(one.slice(1))
    }
  })

  test("as XLSX name people on their own sheets alone, and only where lists are asked for", async () => {
    const counts = await readWorkbook(path.join(out, `month-${month}.xlsx`))
    const lists = await readWorkbook(path.join(out, `month-${month}-people.xlsx`))
    const naming = (book: typeof counts) =>
      book.filter(({ data }) => JSON.stringify(data).includes("Quillhaven")).map(({ sheet }) => sheet)

    expect(naming(counts)).toEqual([])
    expect(naming(lists)).toEqual(["People", "Attention"])
    const [, , head = [], ...people] = lists.find(({ sheet }) => sheet === "People")?.data ?? []
    const place = head.indexOf("Family name")
    expect(people.length).toBeGreaterThan(20)
    expect(new Set(people.map((row) => row[place]))).toEqual(new Set([familyName]))
    expect(statSync(path.join(out, `month-${month}-people.xlsx`)).mode & 0o777).toBe(0o600)
  })

  test.each([`month-${month}.fhir.json`, `month-${month}-people.fhir.json`])(
    "as FHIR are found valid by a validator of R4: %s",
    (name) => {
      const { entry } = z
        .object({ entry: z.array(z.object({ resource: FhirResource })) })
        .parse(JSON.parse(read(name)))
      const faults = entry.flatMap(({ resource }) => faultsOf(resource))

      expect(faults).toEqual([])
      expect(entry.length).toBeGreaterThan(40)
      expect(faultsOf({ resourceType: "MeasureReport" }).join()).toContain("Missing required property")
    },
  )

  test("as FHIR have a score that is the numerator's share of the denominator without exclusions and exceptions", () => {
    const reports = bundle(`month-${month}.fhir.json`).entry.filter(
      ({ resource }) => resource.resourceType === "MeasureReport" && !resource.id.startsWith("diet-sodium-2"),
    )
    expect(reports).toHaveLength(lines.length)
    for (const { resource } of reports) {
      const [group] = resource.group ?? []
      const counted = (code: string) =>
        group?.population.find((one) => one.code.coding?.[0]?.code === code)?.count ?? Number.NaN
      const denominator =
        counted("denominator") - counted("denominator-exclusion") - counted("denominator-exception")
      const line = lines.find((one) => resource.id === `${one.id}-${month}`)

      expect(counted("numerator")).toBe(line?.met)
      expect(group?.measureScore?.value ?? null).toBe(line?.rate)
      if (line?.rate !== null) expect(counted("numerator") / denominator).toBeCloseTo(line?.rate ?? 2, 12)
    }
  })

  test("as FHIR with people have lists as long as their counts, in which nobody is named", () => {
    const { entry } = bundle(`month-${month}-people.fhir.json`)
    const listed = new Map(entry.map(({ fullUrl, resource }) => [fullUrl, resource.entry?.length ?? 0]))
    const populations = entry
      .filter(({ resource }) => resource.type === "subject-list")
      .flatMap(({ resource }) => resource.group?.[0]?.population ?? [])

    expect(populations.some((one) => (one.count ?? 0) > 0)).toBe(true)
    for (const one of populations) expect(listed.get(one.subjectResults?.reference ?? "")).toBe(one.count)
    for (const person of clinic.people.slice(0, 20))
      expect(read(`month-${month}-people.fhir.json`)).not.toContain(`"${person.id}"`)
  })

  test("with people are readable by their owner alone", () => {
    expect(statSync(path.join(out, `month-${month}-people.fhir.json`)).mode & 0o777).toBe(0o600)
  })

  test("are the same bytes when they are made again", async () => {
    const before = read(`month-${month}.fhir.json`)
    await imported.filtrate("report", "--month", month, "--out", out, "--format", "fhir", "--force")

    expect(read(`month-${month}.fhir.json`)).toBe(before)
  })

  test.each([
    ["a month without figures", ["--month", "2009-01"], /no figures of 2009-01/],
    ["a month that is none", ["--month", "2025-13"], /takes a month like/],
    ["a format that is none", ["--month", month, "--format", "doc"], /is no format/],
    ["files that are there", ["--month", month], /is there already/],
  ])("are refused for %s", async (_, args, words) => {
    await expect(imported.filtrate("report", "--out", out, ...args)).rejects.toThrow(words)
    expect(existsSync(path.join(out, "month-2009-01.csv"))).toBe(false)
  })
})

/** Of how many a rate is: where less is better, the people not measured are told apart. */
function countedOf(line: z.infer<typeof Line>): number {
  const isUp = measures.find((one) => one.id === line.id)?.direction === "up"
  return line.met + line.notMet + (isUp ? line.unknown : 0)
}
