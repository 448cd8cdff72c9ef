import type { Browser } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { oneLine } from "../helpers/screen-text"
import { twelvePeople } from "../helpers/twelve-people"

const person = "TW-02"
const { files, year } = twelvePeople()
const month = `${year}-10`

let browser: Browser
let site: ClinicSite

beforeAll(async () => {
  site = await openClinicSite()
  await site.bringIn(filesOf(person))
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

describe.each(Object.entries(widths))("a clinic of one person on a %s", (_kind, width) => {
  test.each([
    [
      "/",
      "0 of 1 person with CKD have their pressure at target.",
      "1 person is above target on 3 or more drug classes.",
      "No one with protein in the urine goes without an ACE inhibitor or ARB",
      "The one person who brought counted days ate 3,900 mg of sodium a day on average.",
    ],
    ["/measures", "0 of 1 at target"],
    ["/measures/bp-at-target", "Too few for a percentage", "Castellano, Bruno"],
    ["/measures/diet-sodium", "2 records of 1 person."],
    [
      "/several-classes",
      "1 person. Severe pressure first",
      "Castellano, Bruno",
      "152/88",
      "By office pressure alone",
    ],
    ["/my-patients", "This account is not linked to a clinician of the staff list"],
    ["/several-classes?finding=no-diuretic", "No one is found with this"],
    [
      "/sodium",
      "Too few of the same people to tell: 1 person",
      "Too few people to draw",
      "No one brought a 24-hour urine with sodium",
      "About 1 to 4 mmHg less systolic for each",
      "Castellano, Bruno",
    ],
    ["/patients", "1 in the panel", "Castellano, Bruno"],
  ])("%s speaks of one", async (address, ...words) => {
    const page = await openPage(browser, {
      url: `${site.url}${address}${address.includes("?") ? "&" : "?"}month=${month}`,
      width,
    })

    for (const said of words)
      await expect.poll(async () => oneLine(await page.getByRole("main").innerText())).toContain(said)

    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })

  test("tells what to talk about with the person in matters of diet, and which products to ask about", async () => {
    const page = await openPage(browser, { url: `${site.url}/several-classes?month=${month}`, width })
    await page.getByRole("link", { name: "Castellano, Bruno" }).first().click()
    const diet = page.getByRole("region", { name: "Diet", exact: true })

    // 3,900 mg are 1,900 above the limit: 82.6 mmol, of which 50 go with 1.1 mmHg and 73.5 with 6.9.
    await expect
      .poll(async () => oneLine(await diet.innerText()))
      .toContain("about 2 to 8 mmHg less systolic")
    const said = oneLine(await diet.innerText())
    expect(said).toContain("3,900 mg a day from 2 records (counted days)")
    expect(said).toContain("4.8 mmol/L on 5 Oct")
    expect(said).toContain("not without the clinician's word. A RAS blocker is active.")
    expect(await accessibilityProblems(page)).toEqual([])

    await diet.getByRole("link", { name: "Supplements and herbal products of concern" }).click()
    await page.getByRole("heading", { level: 1, name: "Products of concern" }).waitFor()
    await page.getByText("Star fruit and its juice").waitFor()
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })
})

/** The staff, and the rows of one person. */
function filesOf(id: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(files).map(([name, text]) => {
      const [head = "", ...rows] = text.trim().split("\n")
      const kept = name === "staff.csv" ? rows : rows.filter((row) => row.split(",").includes(id))
      return [name, `${[head, ...kept].join("\n")}\n`]
    }),
  )
}
