import { readFileSync } from "node:fs"
import path from "node:path"
import type { Browser, Page } from "playwright-core"
import { tableFromIPC } from "apache-arrow"
import { afterAll, beforeAll, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage } from "../helpers/browser"
import { fetchSignedIn } from "../helpers/signed-in"

const demoUrl = inject("demoUrl")
const demoDataDir = inject("demoDataDir")

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
  page = await openPage(browser, { url: `${demoUrl}/patients/${await someoneAboveTarget()}` })
})

afterAll(() => browser.close())

test("a standing names every condition, and each value leads to the row it came from", async () => {
  const measure = page.getByRole("region", { name: "Pressure at target" })
  await measure.getByText("Every condition").click()

  const conditions = await measure.getByRole("listitem").allInnerTexts()
  expect(conditions.find((text) => text.includes("chronic kidney disease"))).toMatch(/^holds/)
  expect(conditions.find((text) => text.includes("systolic and diastolic below the target"))).toMatch(/^no/)
  expect(await accessibilityProblems(page)).toEqual([])

  const source = measure
    .getByRole("listitem")
    .filter({ hasText: "chronic kidney disease" })
    .getByRole("link")
    .first()
  const line = await source.innerText()
  await source.click()
  await page.waitForURL(/\/imports\/\d+\/(labs|problems)\/\d+$/)

  expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe(`Line ${line}`)
  expect(await page.getByRole("table").innerText()).toContain("in force")
  expect(await accessibilityProblems(page)).toEqual([])

  await page.getByRole("link", { name: "The patient it speaks of" }).click()
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}$/)
})

test("an earlier month shows the person as of its last day", async () => {
  await page.getByText(/^as of /).click()
  await page.getByRole("navigation", { name: "Months" }).getByRole("link").nth(3).click()
  await page.waitForURL(/month=/)

  const month = new URL(page.url()).searchParams.get("month") ?? ""
  const asOf = await page.getByText(/^as of /).innerText()
  expect(new Date(`${asOf.replace("as of ", "")} UTC`).toISOString().slice(0, 7)).toBe(month)
})

test("who it is, the outlook of the kidneys and the diet lead to rows of this person", async () => {
  const patient = page.url()
  const number = await page.getByRole("link", { name: /^number / }).innerText()
  const parts = [
    page.locator("header").filter({ has: page.getByRole("heading", { level: 1 }) }),
    page.getByRole("region", { name: "Kidney outlook" }),
    page.getByRole("region", { name: "Diet" }),
  ]
  for (const part of parts) {
    const rows = await part.locator('a[href^="/imports/"]').evaluateAll(addresses)
    expect(rows.length).toBeGreaterThan(0)
    await page.goto(new URL(rows[0] ?? "", patient).href)
    expect(await page.getByRole("main").innerText()).toContain(number.replace("number ", ""))
    await page.goto(patient)
  }
})

test("every part of the screen leads to rows of its person, and no figure stands without one", async () => {
  const followed = new Set<string>()
  const guarded = new Set<string>()
  for (const { publicId, numbers } of await peopleOfEveryPart()) {
    await page.goto(`${demoUrl}/patients/${publicId}`)
    const lines = await page.getByRole("main").evaluate(linesOf)

    expect(lines.filter(isWithoutRow).map(({ part, text }) => `${part}: ${text}`)).toEqual([])
    const told = lines.filter((line) => line.rows.length > 0)
    // A part is guarded by a line that would be missed if it lost its rows.
    for (const line of told) if (isWithoutRow({ ...line, rows: [] })) guarded.add(line.part)

    const rows = told.flatMap((line) => line.rows).filter((row) => row.startsWith("/imports/"))
    const ahead = [...new Set(rows)].filter((row) => !followed.has(row))
    for (const row of ahead) followed.add(row)
    for (let place = 0; place < ahead.length; place += 8) {
      const some = ahead.slice(place, place + 8)
      const answers = await Promise.all(some.map((row) => answerOf(row, numbers)))
      expect(answers).toEqual(some.map((row) => ({ row, status: 200, isTheirs: true })))
    }
  }

  expect(parts.filter((part) => !guarded.has(part))).toEqual([])
  expect(followed.size).toBeGreaterThan(100)
}, 600_000)

test("a value of several rows opens the figures, by a click and from the keyboard", async () => {
  await page.goto(`${demoUrl}/patients/${await someoneAboveTarget()}`)
  const stage = page.getByRole("link", { name: /^CKD / })
  const figures = page.getByRole("heading", { name: "Kidney and urine" })
  expect(await figures.isVisible()).toBe(false)

  await stage.click()
  await figures.waitFor({ state: "visible" })

  await page.getByText("Figures and their source rows").click()
  expect(await figures.isVisible()).toBe(false)

  await stage.press("Enter")
  await figures.waitFor({ state: "visible" })
})

const parts = [
  ...["identity", "Cautions", "Outreach", "Kidney outlook", "Diet"],
  ...["High on several drugs: resistance, or something simpler", "What guidance says of drug classes"],
  ...["Pressure", "Drugs", "eGFR", "ACR", "Potassium", "Sodium", "Visits"],
  ...[
    "Pressures",
    "Kidney and urine",
    "Pressure at target",
    "Urine albumin tested",
    "Monitoring on schedule",
  ],
]

/** Parts in which every line is said because of a row, with a figure or without. */
const everyLine = [
  ...["Cautions", "Kidney outlook", "High on several drugs: resistance, or something simpler"],
  "What guidance says of drug classes",
]

/** What says that something is not there, names a decision, or is said of everybody. */
const withoutFact = [
  ...[/none on record$/, /No record of the last 12 months/, /^No potassium of the last 12 months/],
  ...[
    /^No counted reading in 12 months/,
    /^(Contraindicated|Not tolerated|Patient declined|Deferred), since/,
  ],
  ...[/^Clonidine and drugs like it are never stopped/, /^Beta blockers are not stopped/],
]

type Line = { part: string; text: string; rows: string[] }

function isWithoutRow({ part, text, rows }: Line): boolean {
  // A decision is no row of an import: it names who decided and when.
  if (rows.length > 0 || text === "" || part === "Decisions") return false
  if (withoutFact.some((words) => words.test(text))) return false
  return everyLine.includes(part) || /(?<![A-Za-z])\d/.test(text)
}

/**
 * The lines of the screen by part, each with its own words and the addresses it opens: entries of lists, names with a value, the
 * facts under a condition, and the marks of the line of time, of which those of several rows open the figures.
 */
function linesOf(main: Element): Line[] {
  const within = "li, dl > div, ol > li > div > div"
  return [...main.querySelectorAll(`${within}, [aria-hidden] a[title]`)].flatMap((line) => {
    const fold = line.closest("details")?.querySelector("summary")?.textContent ?? ""
    if (line.closest("nav, form, ul[aria-hidden]") !== null || fold === "Where this is from") return []
    const section = line.closest("section, header")
    const name = section?.getAttribute("aria-label") ?? section?.querySelector("h2, h3")?.textContent ?? ""
    const part = section?.tagName === "HEADER" ? "identity" : name.startsWith("Outreach") ? "Outreach" : name
    if (line.matches("a")) {
      const href = line.getAttribute("href") ?? ""
      return [{ part, text: line.getAttribute("title") ?? "", rows: href === "" ? [] : [href] }]
    }
    const own = line.cloneNode(true)
    if (!(own instanceof Element)) return []
    // What stands within is a line of its own, a name is no value, and the words of a condition are the rule's.
    for (const other of own.querySelectorAll("li, form, dt")) other.remove()
    if (line.matches("ol > li")) for (const other of own.querySelectorAll("p, div > div")) other.remove()
    const rows = [...own.querySelectorAll("a")].map((link) => link.getAttribute("href") ?? "")
    const isRow = (href: string) => href.startsWith("/imports/") || href.startsWith("#figures-")
    return [{ part, text: own.textContent.trim(), rows: rows.filter(isRow) }]
  })
}

async function answerOf(row: string, numbers: readonly string[]) {
  const answer = await fetchSignedIn(demoUrl + row)
  const told = await answer.text()
  return { row, status: answer.status, isTheirs: numbers.some((number) => told.includes(number)) }
}

/** People who together show every part, each with their number and those merged into it. */
async function peopleOfEveryPart(): Promise<{ publicId: string; numbers: string[] }[]> {
  const extract = readFileSync(path.join(demoDataDir, "demo", "patients.csv"), "utf8")
  const mergedInto = [...extract.matchAll(/^([^,]+),.*,([^,]+),[^,]*$/gm)].map(
    ([, number = "", survivor = ""]) => ({ number, survivor }),
  )
  const people = await panelRows()
  const chosen = [
    people.find((one) => one.uncontrolled_on_several_classes === "met" && one.sodium_mg !== null),
    people.find((one) => one.kidney === "dialysis"),
    people.find((one) => one.kidney === "transplant"),
    people.find((one) => one.has_potassium_diet_flag === true && one.cautions !== ""),
    people.find((one) => mergedInto.some(({ survivor }) => survivor === one.patient_id)),
    people.find((one) => one.bp_at_target === "not met" && one.acr_tested === "not met"),
  ]
  return chosen.map((one) => {
    const number = String(one?.patient_id)
    const merged = mergedInto.filter(({ survivor }) => survivor === number)
    return { publicId: String(one?.public_id), numbers: [number, ...merged.map((own) => own.number)] }
  })
}

async function panelRows(): Promise<Record<string, unknown>[]> {
  const answer = await fetchSignedIn(`${demoUrl}/api/tables/patients`)
  const table = tableFromIPC(new Uint8Array(await answer.arrayBuffer()))
  const names = table.schema.fields.map((field) => field.name)
  return Array.from({ length: table.numRows }, (_, place) =>
    Object.fromEntries(names.map((name) => [name, table.getChild(name)?.get(place)])),
  )
}

function addresses(links: Element[]): string[] {
  return links.map((link) => link.getAttribute("href") ?? "")
}

async function someoneAboveTarget(): Promise<string> {
  const people = await panelRows()
  return String(people.find((one) => one.bp_at_target === "not met")?.public_id)
}
