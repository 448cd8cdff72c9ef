import type { Browser, Page } from "playwright-core"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { accessibilityProblems, isTooWide, openBrowser, openPage, widths } from "../helpers/browser"
import { openClinicSite, type ClinicSite } from "../helpers/clinic-site"
import { oneLine } from "../helpers/screen-text"
import { twelvePeople } from "../helpers/twelve-people"

let browser: Browser
let site: ClinicSite

beforeAll(async () => {
  site = await openClinicSite()
  await site.bringIn(twelvePeople().files)
  browser = await openBrowser()
})

afterAll(async () => {
  await browser.close()
  await site.close()
})

async function said(page: Page): Promise<string> {
  return oneLine(await page.getByRole("main").innerText())
}

/** Reloads until the figures have followed the last change. */
async function waitForFigures(page: Page, words: string) {
  await expect
    .poll(
      async () => {
        await page.goto(`${site.url}/`, { waitUntil: "networkidle" })
        return said(page)
      },
      { timeout: 120_000, interval: 1000 },
    )
    .toContain(words)
}

test("chooses a target, sees what it would make of the history, saves it and takes it back", async () => {
  const page = await openPage(browser, { url: site.url })
  const before =
    (await said(page)).match(/\d+ of \d+ people with CKD have their pressure at target/)?.[0] ?? ""
  await page.getByRole("link", { name: "Settings" }).click()
  const target = page.getByRole("article", { name: "Target", exact: true })
  expect(oneLine(await target.innerText())).toContain("Below 130/80")

  await target.getByText("Change").click()
  await target.getByRole("radio", { name: /Below 120\/80/ }).check()
  await target.getByRole("button", { name: /Show what it would make of the history/ }).click()

  const proposal = page.getByRole("region", { name: "Proposed, not saved" })
  const tried = proposal.getByRole("article", { name: "Pressure at target" })
  await tried.waitFor({ timeout: 60_000 })
  expect(new URL(page.url()).search).toBe("?bp.systolicTarget=120")
  expect(oneLine(await tried.innerText())).toContain(`Now: ${before}.`)
  expect(oneLine(await tried.innerText())).toMatch(/\d+ (person|people) would stand elsewhere today\./)
  await tried.getByText("Figures").click()
  expect(await tried.getByRole("row").count()).toBe(38)
  expect(await accessibilityProblems(page)).toEqual([])

  await proposal.getByRole("button", { name: "Save" }).click()
  expect(await proposal.getByRole("alert").innerText()).toContain("A reason is needed")
  await proposal.getByLabel("Reason").fill("standardised readings since January")
  await proposal.getByRole("button", { name: "Save" }).click()

  const changes = page.getByRole("region", { name: "Changes" })
  await changes.getByText("Reason: standardised readings since January").waitFor()
  expect(oneLine(await changes.innerText())).toContain(
    "Target, office systolic below: 120 mmHg, before 130 mmHg",
  )
  expect(oneLine(await changes.innerText())).toContain("on the site")
  expect(oneLine(await target.innerText())).toContain("Below 120/80 (home 120/80, 24-hour 115/75)")
  expect(oneLine(await target.innerText())).toContain("set by the clinic")
  await expect.poll(async () => (await said(page)).includes(before), { timeout: 100 }).toBe(false)

  await changes.getByRole("link", { name: "Propose what stood before" }).click()
  await page.waitForURL(/systolicTarget=130/)
  await proposal.getByLabel("Reason").fill("back to the earlier target")
  await proposal.getByRole("button", { name: "Save" }).click()
  await changes.getByText("Reason: back to the earlier target").waitFor()
  expect(oneLine(await target.innerText())).toContain("Below 130/80")
  expect(await changes.getByRole("listitem").filter({ hasText: "Reason:" }).count()).toBe(2)

  await waitForFigures(page, before)
  await page.close()
})

test("a target that cannot be is refused with a reason, beside the field and in one place", async () => {
  const page = await openPage(browser, { url: `${site.url}/settings` })
  const target = page.getByRole("article", { name: "Target", exact: true })

  await target.getByText("Change").click()
  await target.getByRole("radio", { name: "Numbers of its own" }).check()
  await target.getByLabel("Office systolic below").fill("40")
  await target.getByRole("button", { name: /Show what it would make of the history/ }).click()

  const alert = page.getByRole("main").getByRole("alert").first()
  await alert.waitFor()
  expect(oneLine(await alert.innerText())).toContain(
    "Target, office systolic below: Must be 90 to 200 mmHg; 40 is outside.",
  )
  expect(await target.getByLabel("Office systolic below").inputValue()).toBe("40")
  expect(await target.getByLabel("Office systolic below").getAttribute("aria-invalid")).toBe("true")
  expect(await accessibilityProblems(page)).toEqual([])

  await target.getByLabel("Office systolic below").fill("115")
  await target.getByLabel("Office diastolic below").fill("115")
  await target.getByRole("button", { name: /Show what it would make of the history/ }).click()

  await expect.poll(() => said(page)).toContain("The diastolic target must lie below the systolic one.")
  await page.close()
})

test("what shapes no figure changes none, and several answers stand together in the address", async () => {
  const page = await openPage(browser, { url: `${site.url}/settings?import.rejectRows=30` })
  await page.getByText("No figure of any month would change.").waitFor({ timeout: 60_000 })
  const several = page.getByRole("article", { name: "Several classes" })

  await several.getByText("Change").click()
  await several.getByRole("radio", { name: /4 or more/ }).check()
  await several.getByRole("button", { name: /Show what it would make of the history/ }).click()

  await page.waitForURL(/drugs\.several=4/)
  expect(new URL(page.url()).searchParams.get("import.rejectRows")).toBe("30")
  const proposal = page.getByRole("region", { name: "Proposed, not saved" })
  await proposal.getByRole("link", { name: "Let go of Several classes" }).click()
  await page.waitForURL(/settings\?import\.rejectRows=30$/)
  await page.close()
})

describe.each(Object.entries(widths))("the settings on a %s", (_kind, width) => {
  test.each(["/settings", "/settings?panel.visitMonths=6&diet.limitMg=1500"])("%s fits", async (address) => {
    const page = await openPage(browser, { url: site.url + address, width })

    expect(await isTooWide(page)).toBe(false)
    expect(await accessibilityProblems(page)).toEqual([])
    await page.close()
  })
})
