import { readFile } from "node:fs/promises"
import type { Browser, Locator, Page } from "playwright-core"
import { readSheet } from "read-excel-file/node"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { correctedPeople, lateExtract, meetingClinic } from "../fixtures/meeting-clinic"
import { day } from "../../lib/speech/format"
import { accessibilityProblems, openBrowser, openPage } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { readPdf } from "../helpers/pdf-text"
import { numberIn, oneLine } from "../helpers/screen-text"
import { waitUntil } from "../helpers/wait-until"

const month = "2026-01"
const measure = "Pressure at target"
const todo = "Look at home readings of everybody who slipped"
const practice = "Home cuffs are lent out"
// A day that is over is refused as the day something is due, so it lies ahead of the test's own.
const due = new Date(Date.now() + 20 * 86_400_000).toISOString().slice(0, 10)
const reason = "Three readings were written down wrong"

let browser: Browser
let site: ClinicSite
let page: Page
/** What the Month said of the measure when the meeting began: "16 of 40". */
let closedCount = ""

beforeAll(async () => {
  site = await openClinicSite()
  await site.bringIn(meetingClinic)
  browser = await openBrowser()
  page = await openPage(browser, { url: site.url, roles: ["clinic-lead"] })
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

// One sitting of the clinic lead: each step goes on from the screen the one before has left.
describe("the clinic lead holds the meeting of a month", () => {
  test("opens the month, and the first reason leads to its measure and to the people it names", async () => {
    closedCount = await countOf(sentence())
    const first = page.getByRole("region", { name: "First this month" }).getByRole("listitem")
    const about = first.filter({ hasText: measure })
    const reasonLink = about.getByRole("link", { name: /slipped above it/ })
    const said = numberIn(await reasonLink.innerText())

    await reasonLink.click()
    await page.waitForURL(/\/measures\/bp-at-target\?.*change=lost.*#people$/)
    expect(said).toBeGreaterThan(0)
    expect(await people().count()).toBe(said)

    await page.goBack()
    await about.getByRole("link", { name: measure }).click()
    await page.waitForURL(/\/measures\/bp-at-target$/)
    expect(await countOf(page.getByRole("heading", { level: 2, name: /pressure at target/ }))).toBe(
      closedCount,
    )
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("finds what changed: the parts sum to the change, and one opens as many people as it says", async () => {
    const parts = page.getByRole("table", { name: /parts of the change/ }).getByRole("row")
    const points = (await parts.allInnerTexts())
      .map((row) => /([+\u2212-]?[\d.]+)\s*$/.exec(row)?.[1] ?? null)
      .flatMap((text) => (text === null ? [] : [Number(text.replace("\u2212", "-"))]))
    const whole = points.at(-1) ?? 0
    const sum = points.slice(0, -1).reduce((total, one) => total + one, 0)
    expect(whole).toBeLessThan(0)
    expect(sum).toBeCloseTo(whole, 6)

    const link = parts.filter({ hasText: "slipped above it" }).getByRole("link").first()
    const said = numberIn(await link.innerText())
    await link.click()
    await page.waitForURL(/change=lost/)
    expect(await people().count()).toBe(said)
  })

  test("notes a change in practice, and it stands on the chart", async () => {
    await page.getByText("Note a change in practice").click()
    await page.getByLabel("Day", { exact: true }).fill("2025-11-10")
    await page.getByLabel("What changed").fill(practice)
    await page.getByRole("button", { name: "Note", exact: true }).click()

    await page.getByRole("region", { name: "Notes on the charts" }).getByText(practice).waitFor()
    const drawn = page.getByRole("region", { name: "History" }).getByText(/^1( |$)/)
    expect(await drawn.count()).toBeGreaterThan(0)
  })

  test("writes down what is to be done until when", async () => {
    await page.getByText("Write down for January 2026").click()
    await page.getByLabel("What", { exact: true }).fill(todo)
    await page.getByLabel("Who", { exact: true }).fill("Dr A")
    await page.getByLabel("Until").fill(due)
    await page.getByRole("button", { name: "Write down" }).click()

    const log = page.getByRole("region", { name: "Decisions and actions" })
    const entry = log.getByRole("listitem").filter({ hasText: todo })
    await entry.getByText(`Dr A. Due ${day(due)}. Of January 2026`).waitFor()
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("closes the month with the figures on the screen", async () => {
    await page.goto(`${site.url}/?month=${month}`)
    await page.getByLabel("Note, if any; no names").fill("Agreed in the meeting")
    await page.getByRole("button", { name: "Close January 2026" }).click()

    await seen("the closing", page.getByText("Figures as known then, to the last digit."))
    expect(await page.getByText(/^Closed by Test Person, .*: Agreed in the meeting$/).count()).toBe(1)
    expect(await countOf(sentence())).toBe(closedCount)
  })

  test("takes the month along as a PDF and a workbook, with the counts of the screen", async () => {
    const documents = page.getByRole("list", { name: "Documents of the month" })
    const pdf = await readPdf(await download(documents.getByRole("link", { name: "PDF" })))
    expect(pdf.pages.join(" ")).toContain(`${closedCount} people with CKD have their pressure at target.`)

    const book = await download(documents.getByRole("link", { name: "XLSX" }))
    const [, , heads = [], ...rows] = await readSheet(book, measure)
    const own = rows.find(([on]) => on instanceof Date && on.toISOString().startsWith(month)) ?? []
    const cell = (name: string) => own[heads.indexOf(name)]
    expect(`${String(cell("Met"))} of ${String(cell("Counted"))}`).toBe(closedCount)
  })

  test("after late data the closed figures stay, beside what they would be and who moved", async () => {
    await site.bringIn(lateExtract)
    await page.goto(`${site.url}/?month=${month}`)
    const today = page
      .getByRole("article")
      .filter({ has: sentence() })
      .getByRole("link", { name: /^Would be/ })
    await seen("what it would be today", today)

    const [met = 0, total = 0] = closedCount.split(" of ").map(Number)
    expect(await countOf(sentence())).toBe(closedCount)
    expect(oneLine(await today.innerText())).toContain(`${met + correctedPeople} of ${total}`)

    await today.click()
    await page.waitForURL(/#closed$/)
    const moved = page.getByRole("table", { name: /stand elsewhere today/ }).getByRole("row")
    expect(await moved.count()).toBe(1 + correctedPeople)
    expect(oneLine(await moved.nth(1).innerText())).toMatch(/Above target.*At target/)
    expect(await accessibilityProblems(page)).toEqual([])

    await moved.nth(1).getByRole("link").first().click()
    await page.getByText(/^This month is closed: how this person stood is told as it was known/).waitFor()
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("the next month shows first what was to be done, by whom and until when", async () => {
    await page.goto(site.url)
    const open = page.getByRole("region", { name: "Open from earlier months" })

    expect(await page.getByRole("heading", { level: 1 }).innerText()).toBe("February 2026")
    expect(oneLine(await open.getByRole("listitem").innerText())).toContain(
      oneLine(`${measure}: ${todo} Dr A. Due ${day(due)}. Of January 2026`),
    )
    const first = page.getByRole("region", { name: "First this month" }).getByRole("listitem")
    expect(oneLine(await first.first().innerText())).toBe(
      `1 action of earlier months open, none overdue: ${measure}.`,
    )
    const titles = await page.getByRole("main").getByRole("heading", { level: 2 }).allInnerTexts()
    expect(titles[0]).toBe("Open from earlier months")
  })

  test("opens the month again with a reason, and it has today's figures", async () => {
    const [met = 0, total = 0] = closedCount.split(" of ").map(Number)
    await page.goto(`${site.url}/?month=${month}`)
    await page.getByText("Open January 2026 again").click()
    await page.getByLabel("Reason; kept, so no names").fill(reason)
    await page.getByRole("button", { name: "Open again" }).click()

    await seen("today's figures", sentence().filter({ hasText: `${met + correctedPeople} of ${total}` }))
    expect(await page.getByRole("link", { name: /^Would be/ }).count()).toBe(0)
    await page.getByText("Closed before: 1 time").click()
    expect(await page.getByText(reason).isVisible()).toBe(true)
    expect(await accessibilityProblems(page)).toEqual([])
  })
})

function sentence(): Locator {
  return page.getByRole("heading", { level: 3, name: /have their pressure at target/ })
}

/** The rows of the list of people, its head left out. */
function people(): Locator {
  return page
    .getByRole("table", { name: /^People by name/ })
    .locator("tbody")
    .getByRole("row")
}

/** "16 of 40", as a sentence says it. */
async function countOf(told: Locator): Promise<string> {
  return /^[\d,]+ of [\d,]+/.exec(oneLine(await told.innerText()))?.[0] ?? "no count"
}

async function download(link: Locator): Promise<Buffer> {
  const [file] = await Promise.all([page.waitForEvent("download"), link.click()])
  return readFile(await file.path())
}

/** Looks at the screen anew until it shows this: figures are computed in a process beside the site. */
async function seen(what: string, shown: Locator): Promise<void> {
  await waitUntil(
    what,
    async () => {
      await page.reload({ waitUntil: "networkidle" })
      return (await shown.count()) > 0
    },
    90_000,
  )
}
