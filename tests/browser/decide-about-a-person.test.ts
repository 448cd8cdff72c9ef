import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { daysAfter } from "../../lib/domain/day-sums"
import { rasBlockerInAlbuminuria } from "../../lib/measures/ras-blocker-in-albuminuria"
import { day, dayInFull } from "../../lib/speech/format"
import { protectionExtract } from "../fixtures/protection-clinic"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { pressUntil, typeChoice, typeDay } from "../helpers/outreach-keys"
import { oneLine } from "../helpers/screen-text"

// The data reach to the day before the decision, so that the figures have it only once those of its day are in.

const today = new Date().toISOString().slice(0, 10)
const yesterday = daysAfter(today, -1)
const until = daysAfter(today, 90)
const nephrologist = { roles: ["nephrologist"], name: "Cora Third" } as const

let browser: Browser
let site: ClinicSite
let page: Page

beforeAll(async () => {
  site = await openClinicSite()
  await site.bringIn(protectionExtract(yesterday))
  browser = await openBrowser()
  page = await openPage(browser, { url: `${site.url}/protection`, ...nephrologist })
  await page.getByRole("link", { name: "Ash, Plain", exact: true }).click()
  await page.waitForURL(/\/patients\/[0-9a-f-]{36}/)
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

const topicIn = (of: Page) =>
  of
    .getByRole("region", { name: "Decisions" })
    .getByRole("listitem")
    .filter({ has: of.getByRole("heading", { name: "ACE inhibitor or ARB", exact: true }) })
const foldIn = (of: Page, word: string) => topicIn(of).locator("summary", { hasText: word })
const said = async () => oneLine(await topicIn(page).innerText())
const standing = () => page.getByRole("region", { name: rasBlockerInAlbuminuria.name, exact: true })

/** Opens a fold by keys alone. */
async function openByKeys(word: string): Promise<void> {
  await pressUntil(page, { key: "Tab", field: foldIn(page, word), within: 200 })
  await page.keyboard.press("Enter")
}

describe("a decision on the patient's screen", () => {
  test("is made by keys alone and stands there with who, when and until when", async () => {
    expect(await said()).toContain("None on record.")
    await openByKeys("Decide")
    const field = (role: "combobox" | "textbox", name: RegExp) => topicIn(page).getByRole(role, { name })
    await typeChoice(page, { field: field("combobox", /^Decision/), words: "Cough" })
    await typeDay(page, { field: topicIn(page).getByLabel(/^Until/), day: until })
    await pressUntil(page, { key: "Tab", field: field("textbox", /^Note/) })
    await page.keyboard.type("Since the second week")
    await page.keyboard.press("Enter")

    await expect.poll(said, { timeout: 15_000 }).toContain("Not tolerated: cough")
    expect(await said()).toContain("“Since the second week”")
    expect(await said()).toContain(oneLine(`Cora Third, ${day(today)}; holds until ${day(until)}.`))
  })

  test("counts, as its form says, once the figures reach its day", async () => {
    const told = oneLine(await topicIn(page).getByRole("status").innerText())
    expect(told).toBe(
      oneLine(
        `Recorded. It counts in the figures once they reach ${dayInFull(today)}; they stand at ${dayInFull(yesterday)}.`,
      ),
    )
    expect(oneLine(await standing().innerText())).not.toContain(oneLine(`until ${day(until)}`))

    await site.bringIn({ visits: ["visit_id,patient_id,started_on,kind", `Next,Ash,${today},office`] })
    await expect
      .poll(
        async () => {
          await page.reload()
          return oneLine((await standing().textContent()) ?? "")
        },
        { timeout: 90_000, interval: 2000 },
      )
      .toContain(oneLine(`since ${day(today)}, until ${day(until)}`))
  })

  test("is taken back by keys alone, and stays in the history with who took it back", async () => {
    const undo = topicIn(page).getByRole("button", { name: "Undo: ACE inhibitor or ARB" })
    await pressUntil(page, { key: "Tab", field: undo, within: 200 })
    await page.keyboard.press("Enter")
    await expect.poll(said, { timeout: 15_000 }).toContain("None on record.")
    expect(await undo.count()).toBe(0)

    await openByKeys("Earlier")
    await expect.poll(said).toContain("Not tolerated: cough")
    expect(await said()).toContain(
      oneLine(`Cora Third, ${day(today)}; taken back by Cora Third, ${day(today)}.`),
    )
  })

  test.each(Object.values(widths))(
    "has no barrier at %i pixels, with form and history open",
    async (width) => {
      const other = await openPage(browser, { url: page.url(), width, ...nephrologist })
      await foldIn(other, "Decide").click()
      await foldIn(other, "Earlier").click()
      await topicIn(other).getByRole("combobox", { name: "Decision" }).waitFor()

      expect(await isTooWide(other)).toBe(false)
      expect(await accessibilityProblems(other)).toEqual([])
      await other.close()
    },
  )
})
