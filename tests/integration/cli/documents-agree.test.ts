import { readFileSync } from "node:fs"
import path from "node:path"
import { parse } from "csv-parse/sync"
import { readSheet } from "read-excel-file/node"
import { afterAll, beforeAll, expect, test } from "vitest"
import { z } from "zod"
import { measures } from "../../../lib/measures/index"
import { handMadeClinics, writeClinic } from "../../fixtures/clinic"
import { importClinic, type ImportedClinic } from "../../helpers/import-clinic"
import { readPdf } from "../../helpers/pdf-text"
import { temporaryFolder } from "../../helpers/temporary-folder"

const Figure = z.object({
  ...{ id: z.string(), population: z.number(), excluded: z.number(), unknown: z.number(), met: z.number() },
  ...{ exception: z.number(), notMet: z.number(), rate: z.number().nullable() },
})
type Figure = z.infer<typeof Figure>

const Bundle = z.object({
  entry: z.array(
    z.object({
      resource: z.looseObject({
        ...{ resourceType: z.string(), id: z.string() },
        group: z
          .array(
            z.looseObject({
              population: z.array(z.looseObject({ code: z.looseObject({}), count: z.number().optional() })),
              measureScore: z.object({ value: z.number() }).optional(),
            }),
          )
          .optional(),
      }),
    }),
  ),
})

const [clinic] = handMadeClinics
if (!clinic) throw new Error("there is a hand-made clinic")
const month = clinic.on.slice(0, 7)
const named = {
  people: clinic.people.map(({ facts }, place) => ({
    // A number that is no word of any document.
    id: `QH${5000 + place}`,
    facts: facts.map((fact) =>
      fact.file === "patients.csv"
        ? { ...fact, row: { ...fact.row, family_name: `Quillhaven${place}`, given_name: "Zebedee" } }
        : fact,
    ),
  })),
}

const extract = temporaryFolder()
const out = path.join(extract.folder, "out")
const file = (ending: string) => path.join(out, `month-${month}.${ending}`)
// A clinic is brought in, asked and set as documents, each by a process of its own.
const minutes = 600_000
let imported: ImportedClinic
let figures: Figure[]
let pdf: string

beforeAll(async () => {
  writeClinic(named, path.join(extract.folder, "extract"))
  imported = await importClinic({ folder: path.join(extract.folder, "extract"), timeZone: clinic.timeZone })
  const printed = await imported.measuresOn(clinic.on)
  figures = printed.flatMap((one) => (one.id === "diet-sodium" ? [] : [Figure.parse(one)]))
  await imported.filtrate("report", "--month", month, "--out", out)
  pdf = (await readPdf(readFileSync(file("pdf")))).pages.join(" ")
}, minutes)

afterAll(async () => {
  await imported.close()
  extract.remove()
})

test("the CSV, the workbook, the MeasureReports and the snapshot have the same figures of every measure", async () => {
  expect(figures.map((one) => one.id)).toEqual(measures.map((one) => one.id))
  expect(ofCsv()).toEqual(figures)
  expect(ofFhir()).toEqual(figures)
  // A workbook leaves the rate of fewer than 20 people out.
  expect(await ofWorkbook()).toEqual(
    figures.map((one) => ({ ...one, rate: countedOf(one) < 20 ? null : one.rate })),
  )
})

test.each(measures.map((measure) => [measure.name, measure] as const))(
  "the PDF has the snapshot's figures of: %s",
  (name, { id }) => {
    const figure = figures.find((one) => one.id === id)
    if (!figure) throw new Error("each measure has figures")
    const counted = countedOf(figure)
    const share = Math.floor((figure.rate ?? 0) * 100 + 0.5)
    const few = counted === 0 ? "no one" : `${figure.met} of ${counted}`
    // The line of the contents, then the measure's own part: its counts in the order met, not met, not measured.
    expect(pdf).toContain(`${name} ${counted < 20 ? few : `${share}%`} `)
    const own = pdf.slice(pdf.indexOf(`${name} `, pdf.indexOf("Settings in force")))
    const parts = [figure.met, figure.notMet, figure.unknown, figure.exception].filter((one) => one > 0)
    if (counted > 0) expect(own.slice(0, 900)).toMatch(new RegExp(parts.join("\\b.{3,80}?\\b")))
  },
)

test("no document of counts has the name or the number of a patient", () => {
  const texts = [pdf, readFileSync(file("csv"), "utf8"), readFileSync(file("fhir.json"), "utf8")]

  expect(named.people.length).toBeGreaterThan(100)
  for (const text of texts) expect(text).not.toMatch(/Quillhaven|Zebedee|QH5\d{3}/i)
})

function ofCsv(): Figure[] {
  const rows = z
    .array(z.record(z.string(), z.string()))
    .parse(parse(readFileSync(file("csv"), "utf8"), { columns: true }))
    .filter((row) => row.as_of === clinic?.on && row.measure !== "diet-sodium")
  const read = rows.map((row) => ({
    ...{ id: row.measure ?? "", population: Number(row.population), excluded: Number(row.excluded) },
    ...{ unknown: Number(row.unknown), met: Number(row.met), exception: Number(row.exception) },
    ...{ notMet: Number(row.not_met), rate: row.rate === "" ? null : Number(row.rate) },
  }))
  expect(read).toHaveLength(measures.length)
  return measures.flatMap(({ id }) => read.filter((row) => row.id === id))
}

async function ofWorkbook(): Promise<Figure[]> {
  const [, , heads = [], ...rows] = await readSheet(file("xlsx"), "Month")
  return measures.map(({ id, name }) => {
    const row = rows.find(([first]) => first === name)
    const cell = (head: string) => row?.[heads.indexOf(head)]
    return Figure.parse({
      ...{ id, population: cell("People asked"), excluded: cell("Excluded"), unknown: cell("Not measured") },
      ...{
        met: cell("Met"),
        exception: cell("Documented reason"),
        notMet: cell("Not met"),
        rate: cell("Rate"),
      },
    })
  })
}

/** A report has no count of those who are not met: they are what the denominator has left. */
function ofFhir(): Figure[] {
  const { entry } = Bundle.parse(JSON.parse(readFileSync(file("fhir.json"), "utf8")))
  return measures.map(({ id, direction }) => {
    const group = entry.find(
      ({ resource }) => resource.resourceType === "MeasureReport" && resource.id === `${id}-${month}`,
    )?.resource.group?.[0]
    const counted = (code: string) =>
      group?.population.find((one) => JSON.stringify(one.code).includes(`"${code}"`))?.count ?? Number.NaN
    const [excluded, exception] = [counted("denominator-exclusion"), counted("denominator-exception")]
    const [met, unknown] = [counted("numerator"), counted("not measured")]
    const others = excluded + exception + met + (direction === "up" ? unknown : 0)
    return {
      ...{ id, population: counted("initial-population"), excluded, unknown, met, exception },
      ...{ notMet: counted("denominator") - others, rate: group?.measureScore?.value ?? null },
    }
  })
}

/** Of how many a rate is: where less is better, the people not measured are told apart. */
function countedOf({ id, met, notMet, unknown }: Figure): number {
  const isUp = measures.find((one) => one.id === id)?.direction === "up"
  return met + notMet + (isUp ? unknown : 0)
}
