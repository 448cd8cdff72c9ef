import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { daysAfter } from "../../lib/domain/day-sums"
import { day as spokenDay } from "../../lib/speech/format"
import * as clinic from "../fixtures/morning-clinic"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import {
  beginAttempt,
  doByKeys,
  goTo,
  hasFocus,
  noteIn,
  pressUntil,
  sendNote,
} from "../helpers/outreach-keys"
import { countBeside, countsAndRows, headCounts, rowOf } from "../helpers/outreach-screen"
import { oneLine } from "../helpers/screen-text"

const { beside, closedAtNoon, morning, returned } = clinic
const today = new Date().toISOString().slice(0, 10)
const day = (plain: string) => oneLine(spokenDay(plain))
const nameOf = (family: string) => `Plain ${family}`

const coordinator = { roles: ["care-coordinator"], name: "Ada First" } as const
const second = { roles: ["care-coordinator"], name: "Ben Second" } as const
const treating = { roles: ["nephrologist"], name: "Cora Third" } as const

let browser: Browser
let site: ClinicSite
let listUrl: string
let page: Page
/** The screen of the second coordinator, in a browser of their own. */
let other: Page

beforeAll(async () => {
  site = await openClinicSite()
  listUrl = `${site.url}/outreach`
  await site.bringIn(clinic.morningExtract(today))
  browser = await openBrowser()
  page = await openPage(browser, { url: listUrl, ...coordinator })
  other = await openPage(browser, { url: listUrl, ...second })
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

const row = (family: string) => rowOf(page, nameOf(family))
const textOf = async (family: string) => oneLine(await row(family).innerText())
const link = (family: string) => row(family).getByRole("link", { name: nameOf(family), exact: true })
/** Who is on the list, in its order. */
const families = async () => {
  const people = page.getByRole("list", { name: "People to contact" }).getByRole("heading", { level: 3 })
  return (await people.allInnerTexts()).map((name) => name.replace("Plain ", ""))
}
const ledTo = (where: clinic.Act["leads"]) => morning.filter((one) => one.leads === where)

/** The list anew, with the first of its rows reached by the keyboard. */
async function toFirstRow(): Promise<void> {
  await page.goto(listUrl)
  await pressUntil(page, { key: "Tab", field: link(beside.urgent), within: 200 })
}

/** Opens somebody's page from the list by the keyboard; answers what its history says, latest first. */
async function historyOf(family: string): Promise<string> {
  await link(family).press("Enter")
  await page.waitForURL(/\/outreach\/people\/[0-9a-f-]{36}$/)
  return oneLine(await page.getByRole("region", { name: "History" }).innerText())
}

/** What the row of a person says after an act, wherever it then stands. */
function saidAfter({ does }: clinic.Act): string {
  switch (does.kind) {
    case "attempt":
      return `1 attempt: ${does.by}, ${does.outcome} ${day(today)}`
    case "snooze":
      return `Snoozed until ${day(daysAfter(today, does.forDays))}`
    case "close":
      return `Closed ${day(today)}: ${does.why}`
    case "note":
      return "Not tried yet"
    case "take":
      return "Assigned to this account"
    case "assign":
      return `Assigned to ${second.name}`
  }
}

// One day of a coordinator, who works by the keyboard alone: each step goes on from where the one before has left the focus.
describe("a coordinator's morning", () => {
  test("begins with thirty people in their order, and counts that agree with the rows", async () => {
    expect(await headCounts(page)).toEqual({ toContact: 30, urgent: 1, waiting: 0 })
    expect(await families()).toEqual(morning.map(({ family }) => family))
    expect(await countBeside(page, "asked not to be contacted")).toBe(1)

    const { said, rows } = await countsAndRows(page, listUrl)

    expect(rows).toEqual(said)
    expect(rows).toMatchObject({ "to contact": 30, urgent: 1, "booked soon": 1 })
  })

  test("offers no call about what is urgent until it is acknowledged, which a nephrologist does first", async () => {
    await toFirstRow()
    await page.keyboard.press("l")
    expect(await hasFocus(link(beside.urgent))).toBe(true)
    expect(await textOf(beside.urgent)).toContain("Not yet acknowledged")

    const doctor = await openPage(browser, { url: listUrl, ...treating })
    const urgent = rowOf(doctor, nameOf(beside.urgent))
    await urgent.locator("summary", { hasText: "Acknowledge" }).click()
    await urgent.getByLabel("What is done about it").fill("Repeat today, tablets on hold")
    await urgent.getByRole("button", { name: `Acknowledge: ${nameOf(beside.urgent)}` }).click()
    await urgent.getByText(`Acknowledged by ${treating.name}`).waitFor()
    await doctor.context().close()
    await toFirstRow()

    expect(await textOf(beside.urgent)).toContain(`Acknowledged by ${treating.name}`)
    expect(await row(beside.urgent).locator("summary", { hasText: "Log attempt" }).count()).toBe(1)
    expect(await headCounts(page)).toMatchObject({ toContact: 30, urgent: 1 })
  })

  test.each(morning.map((one, place) => [place + 1, one.does.kind, one.leads, one] as const))(
    "goes on with case %i: %s, which %s",
    async (_place, _kind, leads, { family, does, ...act }) => {
      await goTo(page, nameOf(family))
      const before = await headCounts(page)

      await doByKeys(page, { does, name: nameOf(family), today, other: second.name })

      const isGone = leads === "stays" ? 0 : 1
      const isWaiting = leads === "waits" ? 1 : 0
      await expect
        .poll(() => headCounts(page))
        .toEqual({ urgent: 1, toContact: before.toContact - isGone, waiting: before.waiting + isWaiting })
      if (leads === "stays")
        await expect.poll(() => textOf(family)).toContain(saidAfter({ family, does, ...act }))
      else expect(await row(family).count()).toBe(0)
      expect(await page.getByRole("main").getByRole("alert").allInnerTexts()).toEqual([])
      // Without the mouse it goes on at once: a row has the focus, the one that was worked on or the next.
      await expect
        .poll(() => page.evaluate("document.activeElement?.closest('[data-row]') !== null"))
        .toBe(true)
    },
  )

  test("has everybody on the list where the outcome led, each saying what was done", async () => {
    const { said, rows } = await countsAndRows(page, listUrl)
    const searches = { stays: "", waits: "?show=waiting", closed: "?show=closed" }

    expect(rows).toEqual(said)
    expect(rows).toMatchObject({
      ...{ "to contact": ledTo("stays").length, waiting: ledTo("waits").length, mine: 1 },
    })
    for (const where of ["stays", "waits", "closed"] as const) {
      await page.goto(`${listUrl}${searches[where]}`)
      expect((await families()).toSorted()).toEqual(ledTo(where).map(({ family }) => family))
      for (const one of ledTo(where)) expect(await textOf(one.family)).toContain(saidAfter(one))
    }
  })
})

describe("two coordinators at one row", () => {
  const family = "Rowan"
  const note = "Daughter answers in the evening"

  test("the later one is told who did what, and what they typed is kept", async () => {
    await toFirstRow()
    await beginAttempt(page, { name: nameOf(family), outcome: "message left" })
    await other.goto(listUrl)
    const theirs = rowOf(other, nameOf(family))
    await theirs.locator("summary", { hasText: "Log attempt" }).click()
    await theirs.getByRole("combobox", { name: "Outcome", exact: true }).selectOption("no answer")
    await theirs.getByRole("button", { name: `Record attempt: ${nameOf(family)}` }).click()
    await theirs.waitFor({ state: "detached" })

    await sendNote(page, { of: row(family), part: "attempt", note })

    const words = oneLine(await row(family).getByRole("alert").innerText())
    expect(words).toMatch(
      new RegExp(`^${second.name} recorded an attempt on .*, while this page was open\\.`),
    )
    expect(words).toContain("Nothing was recorded. It is now: to try again on")
    expect(words).toContain("What was typed is kept")
    const outcome = row(family).getByRole("combobox", { name: "Outcome", exact: true })
    expect(await outcome.inputValue()).toBe("message left")
    expect(await noteIn(row(family), "attempt").inputValue()).toBe(note)
    expect(await hasFocus(noteIn(row(family), "attempt"))).toBe(true)
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("sent again it is recorded, and everything stands in the history", async () => {
    await page.keyboard.press("Enter")
    await row(family).waitFor({ state: "detached" })
    await page.goto(`${listUrl}?show=waiting`)

    const history = await historyOf(family)

    const lines = [
      `${coordinator.name} recorded an attempt by phone: message left`,
      note,
      `${second.name} recorded an attempt by phone: no answer`,
      `${coordinator.name} recorded an attempt by text: wrong number`,
      "The case opened.",
    ]
    expect(history).toMatch(new RegExp(lines.join(".*")))
  })

  test("both take the next one at once, and each has another person", async () => {
    await toFirstRow()
    await other.goto(listUrl)
    await rowOf(other, nameOf(beside.urgent))
      .getByRole("link", { name: nameOf(beside.urgent) })
      .focus()
    await Promise.all([page, other].map((one) => one.keyboard.press("t")))
    await Promise.all([page, other].map((one) => one.waitForURL(/\/outreach\/people\/[0-9a-f-]{36}$/)))

    const titles = await Promise.all(
      [page, other].map((one) => one.getByRole("heading", { level: 1 }).innerText()),
    )

    expect(titles.toSorted()).toEqual([nameOf("Birch"), nameOf("Cherry")])
  })
})

describe("a new import at noon", () => {
  test("closes cases, and who has one of them open is told that new data did it", async () => {
    const [untouched] = closedAtNoon
    await toFirstRow()
    await beginAttempt(page, { name: nameOf(untouched), outcome: "no answer" })

    await site.bringIn(clinic.noonExtract(today))
    await sendNote(page, { of: row(untouched), part: "attempt", note: "Rang twice" })

    expect(oneLine(await row(untouched).getByRole("alert").innerText())).toMatch(
      /^New data changed the case while this page was open \(The case closed itself, since no reason is left, .*It is now: closed: no reason left\./,
    )
    expect(await noteIn(row(untouched), "attempt").inputValue()).toBe("Rang twice")
  })

  test("says who closed by themselves, and why", async () => {
    const { said, rows } = await countsAndRows(page, listUrl)
    expect(rows).toEqual(said)
    expect(rows).toMatchObject({ "closed by themselves": closedAtNoon.length })

    await page.goto(listUrl)
    await page
      .getByRole("listitem")
      .filter({ hasText: "closed by themselves" })
      .getByRole("link")
      .press("Enter")
    await page.waitForURL(/show=closed-itself/)
    await expect.poll(async () => (await families()).toSorted()).toEqual([...closedAtNoon].toSorted())
    for (const family of closedAtNoon)
      expect(await textOf(family)).toContain(`Closed by itself ${day(today)}: no reason is left`)

    const history = await historyOf(returned)
    expect(history).toContain("The case closed itself, since no reason is left.")
    expect(history).toContain("Ended: Potassium high 4.6 mmol/L")
  })

  test("and a later one brings a reason back: the case is open again, with its history", async () => {
    await site.bringIn(clinic.afternoonExtract(today))
    const { said, rows } = await countsAndRows(page, listUrl)
    expect(rows).toEqual(said)
    expect(rows).toMatchObject({ "closed by themselves": closedAtNoon.length - 1 })

    await page.goto(listUrl)
    expect(await textOf(returned)).toContain("Potassium high 5.8 mmol/L")
    expect(await textOf(returned)).toContain("Not tried yet")
    expect(await historyOf(returned)).toMatch(
      /The case opened again: reason returned\..*closed itself.*recorded an attempt by phone: reached, agreed.*The case opened\./,
    )
    expect(await accessibilityProblems(page)).toEqual([])
  })
})

test("on a phone an attempt is logged by touch", async () => {
  const phone = await openPage(browser, { url: listUrl, width: widths.phone, ...coordinator })
  const of = rowOf(phone, nameOf("Hazel"))
  const before = await headCounts(phone)
  await of.locator("summary", { hasText: "Log attempt" }).tap()
  await of.getByRole("combobox", { name: "Outcome", exact: true }).selectOption("wants a call back")
  expect(await isTooWide(phone)).toBe(false)
  expect(await accessibilityProblems(phone)).toEqual([])
  await of.getByRole("button", { name: `Record attempt: ${nameOf("Hazel")}` }).tap()
  await of.waitFor({ state: "detached" })

  const after = { toContact: before.toContact - 1, waiting: before.waiting + 1 }
  expect(await headCounts(phone)).toMatchObject(after)
  await phone.goto(`${listUrl}?show=waiting`)
  expect(oneLine(await of.innerText())).toContain(
    `2 attempts: letter, letter returned ${day(today)}; phone, wants a call back ${day(today)}`,
  )
  expect(await isTooWide(phone)).toBe(false)
  expect(await accessibilityProblems(phone)).toEqual([])
  await phone.context().close()
})
