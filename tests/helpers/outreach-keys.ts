import type { Locator, Page } from "playwright-core"
import { daysAfter } from "../../lib/domain/day-sums"
import type { Act } from "../fixtures/morning-clinic"
import { rowOf } from "./outreach-screen"

/** Whether a field or button has the focus. */
export function hasFocus(field: Locator): Promise<boolean> {
  return field.evaluate((element) => element === element.ownerDocument.activeElement)
}

/** Presses a key until a field has the focus; throws when it does not come within so many. */
export async function pressUntil(
  page: Page,
  { key, field, within = 60 }: { key: string; field: Locator; within?: number },
): Promise<void> {
  for (let pressed = 0; pressed < within; pressed += 1) {
    if (await hasFocus(field)) return
    await page.keyboard.press(key)
  }
  throw new Error(`${within} times ${key} did not lead to ${String(field)}`)
}

/** Goes to a person's row by the keys of the list, downwards and else upwards. */
export async function goTo(page: Page, name: string): Promise<void> {
  const field = rowOf(page, name).getByRole("link", { name, exact: true })
  await pressUntil(page, { key: "j", field, within: 40 }).catch(() => pressUntil(page, { key: "k", field }))
}

/** Does one act by the keyboard alone, from the row that has the focus. `today` is the clinic's day, `other` who is given a case. */
export async function doByKeys(
  page: Page,
  { does, name, today, other }: { does: Act["does"]; name: string; today: string; other: string },
): Promise<void> {
  const of = rowOf(page, name)
  switch (does.kind) {
    case "attempt":
      await page.keyboard.press("l")
      await typeChoice(page, { field: of.getByRole("combobox", { name: "By", exact: true }), words: does.by })
      await typeChoice(page, {
        field: of.getByRole("combobox", { name: "Outcome", exact: true }),
        words: does.outcome,
      })
      if (does.againInDays !== undefined)
        await typeDay(page, {
          field: of.getByLabel("Try again on"),
          day: daysAfter(today, does.againInDays),
        })
      return sendNote(page, { of, part: "attempt", note: "" })
    case "snooze":
      await page.keyboard.press("s")
      await typeDay(page, { field: of.getByLabel("Until"), day: daysAfter(today, does.forDays) })
      return sendNote(page, { of, part: "snooze", note: "Away until then" })
    case "close":
      await openPart(page, { row: of, word: "Close" })
      await typeChoice(page, {
        field: of.getByRole("combobox", { name: "Why", exact: true }),
        words: does.why,
      })
      return sendNote(page, { of, part: "close", note: "" })
    case "note":
      await openPart(page, { row: of, word: "Note" })
      return sendNote(page, { of, part: "note", note: does.words })
    case "take":
      await pressUntil(page, {
        key: "Tab",
        field: of.getByRole("button", { name: `Take: ${name}` }),
      })
      return page.keyboard.press("Enter")
    case "assign":
      await openPart(page, { row: of, word: "Assign" })
      await typeChoice(page, {
        field: of.getByRole("combobox", { name: "To", exact: true }),
        words: other,
      })
      await page.keyboard.press("Tab")
      return page.keyboard.press("Enter")
  }
}

/** Goes to a row by the keys of the list and begins an attempt there, which is not sent. */
export async function beginAttempt(page: Page, { name, outcome }: { name: string; outcome: string }) {
  await goTo(page, name)
  await page.keyboard.press("l")
  const field = rowOf(page, name).getByRole("combobox", { name: "Outcome", exact: true })
  await typeChoice(page, { field, words: outcome })
}

/** Types a note, which may be empty, and sends the form it stands in with Enter. */
export async function sendNote(
  page: Page,
  { of, part, note }: { of: Locator; part: string; note: string },
): Promise<void> {
  await pressUntil(page, { key: "Tab", field: noteIn(of, part) })
  await page.keyboard.type(note)
  await page.keyboard.press("Enter")
}

/** The note of a part of a row: `attempt`, `snooze`, `close` or `note`. */
export function noteIn(of: Locator, part: string): Locator {
  return of.locator(`[data-act="${part}"]`).getByRole("textbox", { name: "Note", exact: true })
}

/** Opens a part of a row that no key opens, as Tab and Enter do, and goes to its first field. */
async function openPart(page: Page, { row, word }: { row: Locator; word: string }): Promise<void> {
  await pressUntil(page, { key: "Tab", field: row.locator("summary", { hasText: word }) })
  await page.keyboard.press("Enter")
  await page.keyboard.press("Tab")
}

/** Types what is chosen of a list that has the focus, and tells when something else was chosen. */
export async function typeChoice(page: Page, { field, words }: { field: Locator; words: string }) {
  await pressUntil(page, { key: "Tab", field })
  await page.keyboard.type(words)
  await sameAs(field, words)
}

/** Types a day as the browser's field has its parts: month, day, year. */
export async function typeDay(page: Page, { field, day }: { field: Locator; day: string }) {
  await pressUntil(page, { key: "Tab", field })
  const [year = "", month = "", ofMonth = ""] = day.split("-")
  await page.keyboard.type(`${month}${ofMonth}${year}`)
  await sameAs(field, day)
}

async function sameAs(field: Locator, words: string): Promise<void> {
  const typed = await field.evaluate((one) => {
    if (one instanceof HTMLSelectElement) return one.selectedOptions[0]?.text ?? ""
    return one instanceof HTMLInputElement ? one.value : ""
  })
  if (typed !== words) throw new Error(`"${words}" was typed, the field has "${typed}"`)
}
