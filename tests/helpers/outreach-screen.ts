import type { Locator, Page } from "playwright-core"
import { numberIn, oneLine } from "./screen-text"

/** The row of a person on the list, by their name. */
export function rowOf(page: Page, name: string): Locator {
  const heading = page.getByRole("heading", { level: 3, name, exact: true })
  return page.getByRole("listitem").filter({ has: heading })
}

/** What the head of the list says: how many are to contact, urgent, and waiting. */
export async function headCounts(
  page: Page,
): Promise<{ toContact: number; urgent: number; waiting: number }> {
  const said = oneLine(await page.getByText(/to contact today/).innerText())
  const [toContact = "", urgent = "", waiting = ""] = said.split(/ to contact today, | urgent\. /)
  return { toContact: numberIn(toContact), urgent: numberIn(urgent), waiting: numberIn(waiting) }
}

const parts = {
  "to contact": { search: "", words: /^People to contact$/ },
  urgent: { search: "?show=urgent", words: /^Urgent: / },
  waiting: { search: "?show=waiting", words: /^People to contact$/ },
  mine: { search: "?whose=mine", words: null },
  "nobody’s yet": { search: "?whose=nobody", words: null },
  "closed by themselves": { search: "?show=closed-itself", words: /^People to contact$/ },
  "booked soon": { search: "?show=booked", words: /^People to contact$/ },
} as const

type Part = keyof typeof parts

/** The counts beside the list, and the rows there are on the list each of them opens. */
export async function countsAndRows(page: Page, listUrl: string): Promise<Record<"said" | "rows", object>> {
  await page.goto(listUrl)
  const head = await headCounts(page)
  const said: Record<string, number> = {
    ...{ "to contact": head.toContact, urgent: head.urgent, waiting: head.waiting },
  }
  for (const words of ["mine", "nobody’s yet", "closed by themselves", "booked soon"])
    said[words] = await countBeside(page, words)
  const rows: Record<string, number> = {}
  for (const part of Object.keys(parts).filter((one): one is Part => one in parts)) {
    const { search, words } = parts[part]
    await page.goto(`${listUrl}${search}`)
    await page.getByText(/to contact today/).waitFor()
    const list = words === null ? page.getByRole("main") : page.getByRole("list", { name: words })
    rows[part] = await list.getByRole("heading", { level: 3 }).count()
  }
  return { said, rows }
}

/** The number that stands before some words in the counts beside the list. */
export async function countBeside(page: Page, words: string): Promise<number> {
  const counted = page.getByRole("listitem").filter({ hasText: new RegExp(`^\\s*[\\d,]+\\s*${words}`) })
  return numberIn(await counted.innerText())
}
