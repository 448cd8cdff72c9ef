import type { Browser, Page } from "playwright-core"
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject, test } from "vitest"
import { accessibilityProblems, openBrowser, openPage } from "../helpers/browser"
import { fetchSignedIn } from "../helpers/signed-in"

const importsUrl = `${inject("demoUrl")}/imports`
const patients = [
  "patient_id,birth_date,sex,registered_on",
  "NEW-1,1960-05-01,female,2020-01-01",
  "NEW-2,1960-02-31,male,2020-01-01",
]

let browser: Browser
let page: Page

beforeAll(async () => {
  browser = await openBrowser()
})

afterAll(() => browser.close())

beforeEach(async () => {
  page = await openPage(browser, { url: importsUrl })
})

afterEach(() => page.close())

test("a trial says what an extract would do and stores nothing", async () => {
  await page.getByLabel(/zip file/).setInputFiles([csv("patients.csv", patients)])
  await page.getByRole("checkbox", { name: /Only try/ }).check()
  await page.getByRole("button", { name: "Bring in" }).click()
  await page.getByText("2 rows in 1 file: 1 added and 1 rejected.").waitFor()

  expect(await page.getByRole("table").last().innerText()).toContain("birth_date")
  expect(await accessibilityProblems(page)).toEqual([])

  const before = await historyOf(importsUrl)
  expect(before).toHaveLength(1)
})

test("a full extract that would empty the clinic asks first, and can be discarded", async () => {
  await page.getByLabel(/zip file/).setInputFiles([csv("patients.csv", patients.slice(0, 2))])
  await page.getByRole("checkbox", { name: /full extract/ }).check()
  await page.getByRole("button", { name: "Bring in" }).click()
  await page.getByText("Nothing is stored yet.").waitFor()

  expect(await page.getByRole("main").innerText()).toMatch(
    /patients\.csv: \d+ of \d+ facts in force would be withdrawn/,
  )
  expect(await accessibilityProblems(page)).toEqual([])

  await page.getByRole("button", { name: "Discard the import" }).click()
  await page.getByText("Declined by a person. Nothing was stored.").waitFor()
})

test("what is no extract is refused with a reason, and a form is refused from elsewhere", async () => {
  await page
    .getByLabel(/zip file/)
    .setInputFiles([{ name: "letter.zip", mimeType: "application/zip", buffer: Buffer.from("dear") }])
  await page.getByRole("button", { name: "Bring in" }).click()
  await page.getByText(/neither a folder nor a zip file/).waitFor()

  const form = new FormData()
  form.append("extract", new Blob(["x"]), "patients.csv")
  const elsewhere = await fetchSignedIn(`${inject("demoUrl")}/api/imports`, {
    method: "POST",
    body: form,
    headers: { origin: "https://elsewhere.test" },
  })
  expect(elsewhere.status).toBe(400)
})

test("the demo's rejected rows are listed with their reasons, and the file has them all", async () => {
  await page.getByRole("link", { name: "Import 1", exact: true }).click()
  const rows = page.getByRole("table", { name: "Rejected rows" }).getByRole("row")
  await rows.first().waitFor()
  const listed = (await rows.count()) - 1
  const answer = await fetchSignedIn(`${inject("demoUrl")}/api/imports/1/rejects`)
  const lines = (await answer.text()).trim().split("\n")

  expect(listed).toBeGreaterThan(20)
  expect(lines[0]).toBe("file,line,column,value,reason,original_line")
  expect(lines.length - 1).toBeGreaterThanOrEqual(listed)
})

function csv(name: string, lines: readonly string[]) {
  return { name, mimeType: "text/csv", buffer: Buffer.from(`${lines.join("\n")}\n`) }
}

async function historyOf(url: string): Promise<string[]> {
  await page.goto(url)
  return page.getByRole("article").allInnerTexts()
}
