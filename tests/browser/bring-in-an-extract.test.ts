import { readFile } from "node:fs/promises"
import { parse } from "csv-parse/sync"
import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { oneLine } from "../helpers/screen-text"
import { twelvePeople } from "../helpers/twelve-people"
import { forge, zipOf } from "../helpers/zip"

const { files, year } = twelvePeople()
const month = `${year}-10`
const rowCount = Object.values(files).reduce((sum, text) => sum + text.trim().split("\n").length - 1, 0)
const orderHead = "order_id,patient_id,drug,as_needed,route,started_on"

let browser: Browser
let site: ClinicSite
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

// Each width has a clinic of its own: what is brought in stays.
describe.each(Object.entries(widths))("the administrator on a %s", (_kind, width) => {
  beforeAll(async () => {
    site = await openClinicSite()
  })

  afterAll(() => site.close())

  afterEach(() => page.close())

  test("sends the zip of a folder, follows it, and finds the clinic on the first screen", async () => {
    page = await openPage(browser, { url: `${site.url}/imports`, width })

    await send({ name: "october.zip", buffer: await zipOf(inFolder(files)) })
    await page.getByRole("progressbar").first().waitFor()
    await page.getByText(`${rowCount} rows in 10 files: ${rowCount} added.`).waitFor()

    expect(await countsOf("readings.csv")).toEqual(["47", "47", "0", "0", "0", "0", "0"])
    expect(await countsOf("patients.csv")).toEqual(["12", "12", "0", "0", "0", "0", "0"])
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])

    await page.goto(`${site.url}/imports`)
    await page.getByText(/^Figures computed /).waitFor()
    await page.goto(`${site.url}/?month=${month}`)
    expect(await page.getByRole("main").innerText()).toMatch(/3 of 7 people with CKD/)
  })

  test("sends it again, and nothing changes", async () => {
    await site.bringIn(files)
    page = await openPage(browser, { url: `${site.url}/imports`, width })

    await send(...Object.entries(files).map(([name, text]) => ({ name, buffer: Buffer.from(text) })))

    await page.getByText(`${rowCount} rows in 10 files: ${rowCount} unchanged.`).waitFor()
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("sees what was rejected and why, and takes it along as a file", async () => {
    await site.bringIn(files)
    page = await openPage(browser, { url: `${site.url}/imports`, width })
    const readings = [
      "patient_id,taken_at,systolic,diastolic,setting",
      `TW-01,${month}-05T09:00,1240,74,office`,
      `TW-01,${month}-05T09:00,84,124,office`,
      `TW-01,${month}-31,118,70,office`,
    ]

    await send({ name: "readings.csv", buffer: Buffer.from(`${readings.join("\n")}\n`) })
    await page.getByText("3 rows in 1 file: 1 added and 2 rejected.").waitFor()

    const rejects = page.getByRole("table", { name: "Rejected rows" }).getByRole("row")
    expect((await rejects.allInnerTexts()).slice(1).map(oneLine)).toEqual([
      expect.stringMatching(/^readings\.csv 2 systolic ?1240 ?must be from 50 to 300 mmHg/),
      expect.stringMatching(/^readings\.csv 3 .*must be above the diastolic pressure/),
    ])
    const [file] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Download as CSV" }).click(),
    ])
    const rows: Record<string, string>[] = parse(await readFile(await file.path()), {
      columns: true,
      bom: true,
    })
    expect(rows.map((row) => [row.line, row.original_line])).toEqual([
      ["2", readings[1]],
      ["3", readings[2]],
    ])
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("says once what an unknown drug text means, and the person takes a class more", async () => {
    await site.bringIn({
      ...files,
      "medications.csv": `${orderHead}\nX1,TW-11,Pressure pill no. 7,no,oral,${year}-09-15\nX2,TW-11,Ramiprl 5 mg,no,oral,${year}-09-15\n`,
    })
    page = await openPage(browser, { url: `${site.url}/imports`, width })
    const text = page.getByRole("listitem").filter({ hasText: "Pressure pill no. 7" })
    expect(oneLine(await text.innerText())).toContain("1 patient, 1 order. Nothing in it was recognised.")

    const misspelt = page.getByRole("listitem").filter({ hasText: "Ramiprl 5 mg" })
    expect(oneLine(await misspelt.innerText())).toContain("One letter away from ramipril.")
    await misspelt.getByRole("button", { name: "Map to ramipril" }).waitFor()

    await text.getByRole("combobox").fill("no such thing")
    await text.getByRole("button", { name: "Map" }).click()
    await page.getByText("no such thing is on no list of ingredients.").waitFor()
    await text.getByRole("combobox").fill("bisoprolol")
    await text.getByRole("button", { name: "Map" }).click()
    await page.getByText("1 text mapped by a person").waitFor()
    await page.getByText(/^Figures computed /).waitFor()
    expect(await accessibilityProblems(page)).toEqual([])

    await page.goto(`${site.url}/patients?month=${month}&columns=class-names`)
    await page.getByText("11 in the panel").waitFor()
    const row = page.getByRole(width === widths.desk ? "row" : "listitem").filter({ hasText: "Doukas" })
    expect(oneLine(await row.innerText())).toMatch(/beta blocker/)
  })

  test("is asked before a full extract withdraws much, and goes on knowing it", async () => {
    await site.bringIn(files)
    page = await openPage(browser, { url: `${site.url}/imports`, width })
    const [head = "", ...people] = files["patients.csv"]?.trim().split("\n") ?? []
    const fewer = [head, ...people.slice(0, 6)].join("\n")

    await page.getByRole("checkbox", { name: /full extract/ }).check()
    await send({ name: "patients.csv", buffer: Buffer.from(`${fewer}\n`) })
    await page.getByText("Nothing is stored yet.").waitFor()
    expect(await page.getByRole("main").innerText()).toMatch(/patients\.csv: 6 of 12 facts in force/)
    expect(await accessibilityProblems(page)).toEqual([])

    await page.getByRole("button", { name: "Store it all the same" }).click()
    await page.getByText(/gone on with after its question/).waitFor()
    await page.getByText("6 unchanged. Withdrawn, as no longer in it: 6 facts.").waitFor()
    await expect
      .poll(
        async () => {
          await page.goto(`${site.url}/?month=${month}`)
          return page.getByRole("main").innerText()
        },
        { timeout: 30_000 },
      )
      .toMatch(/^6\s+in the panel/m)
  })

  test.each([
    ["letter.zip", Buffer.from("dear colleague"), /neither a folder nor a zip file/],
    ["cut.zip", "cut", /neither a folder nor a zip file|damaged/],
    ["holiday.zip", "other", /None of the files of an extract is there/],
    ["climbing.zip", "climbing", /damaged, or holds paths that lead out of its own folder/],
  ])("is told why %s cannot be used", async (name, content, reason) => {
    page = await openPage(browser, { url: `${site.url}/imports`, width })

    await send({ name, buffer: typeof content === "string" ? await badZip(content) : content })
    await page.getByText(reason).waitFor()

    expect(await page.getByText(/Nothing was imported\.|Nothing was stored\./).count()).toBeGreaterThan(0)
    expect(await accessibilityProblems(page)).toEqual([])
  })
})

async function send(...sent: { name: string; buffer: Buffer }[]): Promise<void> {
  const typed = sent.map((file) => ({
    mimeType: file.name.endsWith(".zip") ? "application/zip" : "text/csv",
    ...file,
  }))
  await page.getByLabel(/zip file of the extract/).setInputFiles(typed)
  await page.getByRole("button", { name: /^Bring in/ }).click()
  await page.waitForURL(/\/imports\/\d+$/)
}

async function countsOf(file: string): Promise<string[]> {
  const row = page.getByRole("row").filter({ has: page.getByRole("rowheader", { name: file }) })
  return row.getByRole("cell").allInnerTexts()
}

function inFolder(named: Record<string, string>): Record<string, string> {
  return Object.fromEntries(Object.entries(named).map(([name, text]) => [`october/${name}`, text]))
}

async function badZip(kind: string): Promise<Buffer> {
  const good = await zipOf({ "patients.csv": files["patients.csv"] ?? "" })
  if (kind === "cut") return good.subarray(0, good.length - 30)
  if (kind === "other") return zipOf({ "beach.txt": "sun" })
  return forge(
    await zipOf({ "aa/patients.csv": files["patients.csv"] ?? "" }),
    "aa/patients.csv",
    "../patients.csv",
  )
}
