import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { oneLine } from "../helpers/screen-text"
import { tableOfTwelve, twelvePeople } from "../helpers/twelve-people"

// What the screens must show was worked out on paper: README.md beside the extract.
const { files, year } = twelvePeople()
const month = `${year}-10`

const measures = {
  A: "bp-at-target",
  B: "bp-under-140-90",
  C: "pressure-measured",
  D: "uncontrolled-on-several-classes",
  E: "ras-blocker-in-albuminuria",
  F: "acr-tested",
}
const standings = ["met", "not met", "unknown", "exception", "excluded", "outside"]

const sentences = [
  "11 in the panel",
  "8 with CKD, not on dialysis or transplanted",
  "3 of 7 people with CKD have their pressure at target.",
  "2 people are above target on 3 or more drug classes.",
  "5 of 8 people with long-standing hypertension were under 140/90 when last measured.",
  "6 of 7 people with CKD have a usable pressure.",
  "2 people have protein in the urine and take neither an ACE inhibitor nor an ARB, with no reason on record.",
  "6 of 7 people with CKD had urine albumin measured in the last 12 months.",
  "People who brought counted days ate 3,200 mg of sodium a day on average. 3 people this month",
  "2 people with a record 3 to 15 months before: 400 mg less (2,941 less to 2,141 more).",
]

// The measure's name, and what stands beneath it.
const reasons: [id: string, measure: string, words: string][] = [
  [
    "TW-02",
    "Above target on several classes",
    `152/88 office Target below 130/80; mean of 2 readings on 5 Oct ${year}`,
  ],
  ["TW-03", "ACE inhibitor or ARB with albuminuria", "No ACE inhibitor or ARB on record"],
  [
    "TW-04",
    "Pressure at target",
    `138/82 at home Target below 130/80; average of 16 readings, 25 Oct ${year}`,
  ],
  [
    "TW-04",
    "ACE inhibitor or ARB with albuminuria",
    `ACR 460 mg/g, on 5 Oct ${year}, A3, reported as 52 mg/mmol`,
  ],
  ["TW-05", "Pressure at target", "118/70 24-hour Target below 125/75"],
  ["TW-06", "Urine albumin tested", `None in 12 months The last was ACR 20 mg/g on 31 Oct ${year - 1}`],
  ["TW-06", "Pressure at target", "No usable pressure in the last 12 months"],
  ["TW-07", "Pressure at target", "On dialysis"],
  ["TW-10", "High pressure under 140/90", `Lowest 184/102 Of 2 readings on 22 Oct ${year}`],
  ["TW-12", "Urine albumin tested", "Palliative care"],
]

let browser: Browser
let site: ClinicSite
let page: Page

beforeAll(async () => {
  site = await openClinicSite()
  await site.bringIn(files)
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

describe.each(Object.entries(widths))("the twelve people on a %s", (kind, width) => {
  afterEach(() => page.close())

  test("the month says what was worked out by hand", async () => {
    page = await openPage(browser, { url: `${site.url}/?month=${month}`, width })

    const told = oneLine(await page.getByRole("main").innerText())

    expect(sentences.filter((sentence) => !told.includes(sentence))).toEqual([])
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test.each(Object.entries(measures))("measure %s (%s) lists who stands where", async (column, id) => {
    page = await openPage(browser, { url: `${site.url}/measures/${id}?month=${month}`, width })
    const byHand = tableOfTwelve("Standings")

    for (const standing of standings) {
      await page.goto(`${site.url}/measures/${id}?month=${month}&standing=${standing.replace(" ", "-")}`)
      const names = await page
        .getByRole("region", { name: "People", exact: true })
        .getByRole("rowheader")
        .getByRole("link")
        .allInnerTexts()

      const expected = byHand.filter((row) => row[column] === standing).map((row) => nameOf(row.id ?? ""))
      expect({ standing, names }).toEqual({ standing, names: expected.sort() })
    }
    expect(byHand).toHaveLength(11)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("the panel shows each person's values", async () => {
    const query = Object.keys(columns).map((column) => `columns=${column}`)
    page = await openPage(browser, {
      url: `${site.url}/patients?month=${month}&${query.join("&")}`,
      width,
    })
    await page.getByText("11 in the panel").waitFor()

    const rows = page.getByRole(kind === "desk" ? "row" : "listitem").filter({ has: page.getByRole("link") })
    const shown = (await rows.allInnerTexts()).map(oneLine)

    for (const row of tableOfTwelve("What each is on that day").filter(({ id }) => id !== "TW-09")) {
      const told = shown.find((text) => text.startsWith(nameOf(row.id ?? ""))) ?? ""
      const values = Object.entries(valuesByHand(row)).map(([column, value]) =>
        kind === "desk" ? value : `${columns[column] ?? ""} ${value}`.trim(),
      )
      expect({ told, missing: values.filter((value) => !told.includes(value)) }).toEqual({
        told,
        missing: [],
      })
    }
    expect(shown).toHaveLength(11)
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test.each([...new Set(reasons.map(([id]) => id))])(
    "%s stands where they stand for a reason",
    async (id) => {
      page = await openPage(browser, { url: `${site.url}/patients?month=${month}`, width })
      await page.getByRole("link", { name: nameOf(id) }).click()
      await page.waitForURL(/\/patients\/[0-9a-f-]{36}/)

      for (const [, measure, words] of reasons.filter(([who]) => who === id))
        expect(oneLine(await page.getByRole("region", { name: measure }).innerText())).toContain(words)
      expect(await isTooWide(page)).toBe(false)
      expect(await accessibilityProblems(page)).toEqual([])
    },
  )

  test("who had left by then is shown, and why they are in no count", async () => {
    const [line = 0] = [files["patients.csv"]?.split("\n").findIndex((row) => row.startsWith("TW-09,"))]
    page = await openPage(browser, { url: `${site.url}/imports/1/patients/${line + 1}`, width })
    await page.getByRole("link", { name: "The patient it speaks of" }).click()

    await page.getByText(`Not in the panel on 31 October ${year}:`).waitFor()
    expect(oneLine(await page.getByRole("main").innerText())).toContain(`left on 31 Oct ${year} (moved)`)
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
  })
})

/** The columns asked for, each with the words that stand before its value in a sentence. */
const columns: Record<string, string> = {
  pressure: "pressure",
  from: "",
  "pressure-on": "pressure on",
  category: "category",
  classes: "classes",
  egfr: "eGFR",
  acr: "ACR",
  stage: "stage",
  albuminuria: "albuminuria",
  ras: "ACE inhibitor or ARB",
  potassium: "potassium",
  sodium: "sodium",
}

/** One line of the README's table in the words of the screen. */
function valuesByHand(row: Record<string, string>): Record<string, string> {
  const part = (column: string, pattern: RegExp, absent: string) =>
    pattern.exec(row[column] ?? "")?.[1] ?? absent
  const pressure = "pressure, source, day, category"
  const day = part(pressure, /(\d+ [A-Z]\w+),/, "")
  const classes = row.classes === "none" ? "none" : String((row.classes ?? "").split(", ").length)
  const stage = [part("eGFR, G", /(G\w+)$/, ""), part("urine, A", /(A\d)$/, "")].filter(Boolean)
  const acr = part("urine, A", /^(<?[\d.]+) mg/, "none")
  return {
    pressure: part(pressure, /^(\d+\/\d+)/, "not measured"),
    from: part(pressure, /(office|home|ambulatory)/, "").replace("ambulatory", "24-hour"),
    "pressure-on": day === "" ? "none" : `${day} ${year}`,
    category: part(pressure, /, (.+)$/, "not known"),
    classes,
    egfr: part("eGFR, G", /^(\d+)/, "none"),
    acr: acr.includes(".") ? String(Math.round(Number(acr))) : acr,
    stage: stage.length === 0 ? "unknown" : stage.join(" "),
    albuminuria: row.albuminuria ?? "",
    ras: row["RAS blocker"] ?? "",
    potassium: part("potassium", /^([\d.]+)/, "none"),
    sodium: part("sodium mg", /^([\d,]+)/, "no record"),
  }
}

function nameOf(id: string): string {
  const row = files["patients.csv"]?.split("\n").find((line) => line.startsWith(`${id},`))
  const [, given, family] = row?.split(",") ?? []
  return `${family}, ${given}`
}
