import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { daysAfter } from "../../lib/domain/day-sums"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { readPdf } from "../helpers/pdf-text"
import { oneLine } from "../helpers/screen-text"

// Three people with a potassium of 5.8 who prefer letters: two speak Spanish, one English.

const today = new Date().toISOString().slice(0, 10)
const people = ["Luz,Vega,es-MX", "Rosa,Pardo,es", "Alice,Marsh,en"]
const ids = people.map((_, at) => `L-${at}`)
const extract = {
  patients: [
    "patient_id,given_name,family_name,language,birth_date,sex,registered_on,preferred_contact",
    ...people.map((person, at) => `L-${at},${person},1960-05-01,female,2020-01-01,letter`),
  ],
  visits: [
    "visit_id,patient_id,started_on,kind",
    ...ids.map((id) => `V-${id},${id},${daysAfter(today, -9)},office`),
  ],
  labs: [
    "patient_id,collected_at,test,value,unit",
    ...ids.map((id) => `${id},${daysAfter(today, -3)},potassium,5.8,mmol/L`),
  ],
}

let browser: Browser
let site: ClinicSite
let page: Page

beforeAll(async () => {
  site = await openClinicSite()
  await site.bringIn(extract)
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

describe("the clinic lead writes a letter in Spanish", () => {
  test("and is told by line and letter what cannot be used, with nothing lost of what was typed", async () => {
    page = await openPage(browser, {
      url: `${site.url}/settings/letters?language=es`,
      roles: ["clinic-lead"],
    })
    await page.getByLabel("Subject").fill("Su cita")
    await page.getByLabel("Body").fill("Hola {name}:\n\nSu {pressure}")
    await page.getByRole("button", { name: "Save" }).click()

    await page.getByText("Line 3, letter 4: There is no field {pressure}.").waitFor()
    expect(await page.getByLabel("Subject").inputValue()).toBe("Su cita")
    expect(await accessibilityProblems(page)).toEqual([])
  })

  test("sees it as an invented person would get it, and what still speaks English", async () => {
    await page.getByLabel("Body").fill("Hola {name}:\n\n{reasons}")
    await page.getByLabel("Words of the reasons").fill("potassium-high: Toca repetir un análisis de sangre.")
    await page.getByRole("button", { name: "Preview" }).click()

    const letter = page.getByRole("article", { name: "Preview of the letter" })
    await letter.getByText("Hola Alex Example:").waitFor()
    expect(await letter.getAttribute("lang")).toBe("es")
    expect(await page.getByText(/^Words are lacking in Spanish/).innerText()).toContain("urine-albumin-due")
  })

  test("keeps it, under their name", async () => {
    await page.getByRole("button", { name: "Save" }).click()
    await page.getByText(/wrote the letter in Spanish/).waitFor()

    const languages = page.getByRole("link", { name: "Spanish" })
    expect(await languages.getAttribute("aria-current")).toBe("page")
    expect(await page.getByRole("button", { name: "Withdraw" }).count()).toBe(1)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.setViewportSize({ width: widths.phone, height: 844 })
    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })
})

describe("the coordinator writes to the people for whom a letter is next", () => {
  const rows = () => page.getByRole("list", { name: "Letters to write" }).locator("> li")

  test("whose rows say in which words each letter is", async () => {
    page = await openPage(browser, { url: `${site.url}/outreach`, roles: ["care-coordinator"] })
    await page.getByRole("link", { name: "Letters", exact: true }).click()
    await page.waitForURL(/\/outreach\/letters$/)

    const texts = (await rows().allInnerTexts()).map(oneLine)
    expect(texts).toHaveLength(3)
    expect(texts.find((text) => text.includes("Luz Vega"))).toMatch(/L-0 Toca repetir .* Spanish/)
    expect(texts.find((text) => text.includes("Alice Marsh"))).toContain("English, the program’s own")
    for (const width of Object.values(widths)) {
      await page.setViewportSize({ width, height: 900 })
      expect(await isTooWide(page)).toBe(false)
      expect(await accessibilityProblems(page)).toEqual([])
    }
    await page.setViewportSize({ width: widths.desk, height: 900 })
  })

  test("chooses two, and prints them on a sheet each with nothing else on paper", async () => {
    await page.getByLabel("Letter to Rosa Pardo").uncheck()
    await page.getByRole("link", { name: "Open 2 to print" }).click()
    await page.waitForURL(/\/outreach\/letters\/sheets\?letters=\d+,\d+$/)
    const letter = page.getByRole("article", { name: "Letter to Luz Vega" })
    await letter.waitFor()

    const { pages } = await readPdf(await page.pdf({ preferCSSPageSize: true }))

    expect(await letter.getAttribute("lang")).toBe("es")
    expect(pages).toHaveLength(2)
    const spanish = pages.find((sheet) => sheet.includes("Luz Vega"))
    expect(spanish?.trim()).toBe("Su cita Hola Luz Vega: Toca repetir un análisis de sangre.")
    expect(pages.join(" ")).toContain("Dear Alice Marsh")
    expect(pages.join(" ")).not.toMatch(/5\.8|Filtrate|Sign out|L-0| of 2/)
    for (const width of Object.values(widths)) {
      await page.setViewportSize({ width, height: 900 })
      expect(await isTooWide(page)).toBe(false)
      expect(await accessibilityProblems(page)).toEqual([])
    }
    await page.setViewportSize({ width: widths.desk, height: 900 })
  })

  test("records them as sent; whoever was not chosen stays", async () => {
    await page.getByRole("link", { name: "Back to the letters" }).click()
    await page.getByLabel("Letter to Rosa Pardo").uncheck()
    await page.getByRole("button", { name: "Record 2 as sent" }).click()
    await page.getByText(/letters are recorded as sent/).waitFor()

    expect((await rows().allInnerTexts()).map(oneLine)).toEqual([expect.stringContaining("Rosa Pardo")])
    await page.goto(`${site.url}/outreach?show=waiting`)
    expect(oneLine(await page.getByRole("main").innerText())).toContain("letter, letter sent")
    await page.close()
  })
})
