import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { daysAfter } from "../../lib/domain/day-sums"
import { day } from "../../lib/speech/format"
import { protectionExtract, review, type RowDecision } from "../fixtures/protection-clinic"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { hasFocus, pressUntil, typeChoice, typeDay } from "../helpers/outreach-keys"
import { oneLine } from "../helpers/screen-text"

const today = new Date().toISOString().slice(0, 10)
const nephrologist = { roles: ["nephrologist"], name: "Cora Third" } as const
const nameOf = (family: string) => `${family}, Plain`

let browser: Browser
let site: ClinicSite
let page: Page

beforeAll(async () => {
  site = await openClinicSite()
  await site.bringIn(protectionExtract(today))
  browser = await openBrowser()
  page = await openPage(browser, { url: `${site.url}/protection`, ...nephrologist })
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

const row = (family: string) => page.getByRole("row").filter({ has: head(family) })
const head = (family: string) => page.getByRole("link", { name: nameOf(family), exact: true })

/** Decides at the row that has the focus: D opens the form, Enter sends it. */
async function decideByKeys({ family, option, forDays, note }: RowDecision): Promise<void> {
  const of = row(family)
  await page.keyboard.press("d")
  await typeChoice(page, { field: of.getByRole("combobox", { name: "Decision" }), words: option })
  if (forDays !== undefined)
    await typeDay(page, { field: of.getByLabel(/^Until/), day: daysAfter(today, forDays) })
  await pressUntil(page, { key: "Tab", field: of.getByRole("textbox", { name: /^Note/ }) })
  if (note !== undefined) await page.keyboard.type(note)
  await page.keyboard.press("Enter")
}

function decidedWords({ kind, option, note }: RowDecision): string {
  return option === `${kind}: other` ? `${kind} “${note}”` : `${kind}: ${option.toLowerCase()}`
}

describe("a nephrologist's review of twenty people", () => {
  test("is done by keys alone, each row saying what was decided and the next having the focus", async () => {
    const listed = await page.getByRole("rowheader").getByRole("link").allInnerTexts()
    expect(listed).toEqual(review.map(({ family }) => nameOf(family)))
    await pressUntil(page, { key: "Tab", field: head("Alder") })

    for (const [place, one] of review.entries()) {
      const next = review[place + 1]
      expect(await hasFocus(head(one.family))).toBe(true)
      await decideByKeys(one)
      await expect
        .poll(async () => oneLine(await row(one.family).innerText()), { timeout: 15_000 })
        .toContain(oneLine(decidedWords(one)))
      if (next) await expect.poll(() => hasFocus(head(next.family)), { timeout: 15_000 }).toBe(true)
      expect(oneLine(await row(one.family).innerText())).toContain(`Cora Third, ${oneLine(day(today))}`)
    }
  })

  test("stands in the history of each, with who decided what, why and until when", async () => {
    const addresses = await page
      .getByRole("rowheader")
      .getByRole("link")
      .evaluateAll((links) => links.map((link) => [link.textContent, link.getAttribute("href")]))
    const addressOf = new Map(addresses.map(([name, href]) => [name, href]))
    for (const one of review) {
      await page.goto(`${site.url}${addressOf.get(nameOf(one.family))}`)
      const said = oneLine(await page.getByRole("region", { name: "Decisions" }).innerText())

      expect(said).toContain(oneLine(decidedWords(one)))
      expect(said).toContain(`Cora Third, ${oneLine(day(today))}`)
      if (one.note !== undefined) expect(said).toContain(one.note)
      if (one.forDays !== undefined) expect(said).toContain(oneLine(day(daysAfter(today, one.forDays))))
    }
  })

  test("moves those with a reason out of the others once the figures have followed", async () => {
    const isReason = ({ kind }: RowDecision) => kind !== "Start planned" && kind !== "Wrong data"
    const withReason = review.filter(isReason).map(({ family }) => nameOf(family))
    await expect
      .poll(
        async () => {
          await page.goto(`${site.url}/protection?group=documented-reason`)
          return page.getByRole("rowheader").getByRole("link").allInnerTexts()
        },
        { timeout: 90_000, interval: 2000 },
      )
      .toEqual(withReason)
    await page.goto(`${site.url}/protection?group=never-tried`)
    const left = await page.getByRole("rowheader").getByRole("link").allInnerTexts()

    expect(left).toEqual(review.filter((one) => !isReason(one)).map(({ family }) => nameOf(family)))
  })

  test("is taken back by a key, and the row says so", async () => {
    await pressUntil(page, { key: "Tab", field: head("Alder") })
    await page.keyboard.press("u")

    await expect
      .poll(async () => oneLine(await row("Alder").innerText()), { timeout: 15_000 })
      .not.toContain("Cora Third")
  })

  test.each(Object.values(widths))("has no barrier at %i pixels, decided and not", async (width) => {
    const other = await openPage(browser, { url: `${site.url}/protection`, width, ...nephrologist })
    await other.locator("summary", { hasText: "Decide" }).first().click()
    await other.getByRole("combobox", { name: "Decision" }).first().waitFor()

    expect(await isTooWide(other)).toBe(false)
    expect(await accessibilityProblems(other)).toEqual([])
    await other.close()
  })
})
