import { readdirSync, readFileSync, writeFileSync } from "node:fs"
import path from "node:path"
import type { Browser } from "playwright-core"
import { afterAll, beforeAll, expect, test } from "vitest"
import { openBrowser, openPage } from "../helpers/browser"
import { writeExtract } from "../helpers/extract"
import { filtrate, freePort, startSite } from "../helpers/filtrate"
import { fetchSignedIn } from "../helpers/signed-in"
import { temporaryFolder } from "../helpers/temporary-folder"

// What no address, title, log or failure may hold: everything that was written of a person.

/** Stands in every text and number of the clinic that a person wrote, and nowhere else. */
const marker = "ZZCANARY"

const extract = {
  staff: ["staff_id,name,role,site", `${marker}-S1,${marker} Staff,nephrologist,${marker} Site`],
  patients: [
    "patient_id,given_name,family_name,birth_date,sex,language,race,ethnicity,phone,email,postal_code,clinician_id,site,registered_on",
    ...["P1", "P2"].map(
      (id) =>
        `${marker}-${id},"=HYPERLINK(""http://${marker}.test"")",${marker} Family,1960-02-03,female,${marker},${marker},${marker},${marker} 1,${marker}@example.org,${marker},${marker}-S1,${marker} Site,2024-01-01`,
    ),
  ],
  visits: ["visit_id,patient_id,started_on,kind", `${marker}-V1,${marker}-P1,2026-01-10,office`],
  readings: [
    "reading_id,patient_id,taken_at,systolic,diastolic,setting",
    `${marker}-R1,${marker}-P1,2026-01-10,150,95,office`,
    `${marker}-R2,${marker}-P1,2026-01-11,${marker},95,office`,
    `${marker}-R3,${marker}-NOBODY,2026-01-11,140,95,office`,
  ],
  medications: [
    "order_id,patient_id,drug,started_on,stopped_on,stop_reason",
    `${marker}-O1,${marker}-P1,${marker} potion,2025-01-10,2025-02-10,${marker} reason`,
    `${marker}-O2,${marker}-P1,lisinopril,2025-01-10,2026-01-02,${marker} reason`,
  ],
  problems: [
    "problem_id,patient_id,code_system,code,description,onset_on",
    `${marker}-D1,${marker}-P1,icd10,N18.3,${marker} words,2024-05-01`,
  ],
  allergies: ["patient_id,substance,reaction,recorded_on", `${marker}-P1,${marker} seed,rash,2024-05-01`],
}

const temporary = temporaryFolder()
const dataDir = path.join(temporary.folder, "data")
const env = { FILTRATE_DATA: dataDir, FILTRATE_DEMO: "off", FILTRATE_TIME_ZONE: "UTC" }

let browser: Browser
let site: Awaited<ReturnType<typeof startSite>>

beforeAll(async () => {
  browser = await openBrowser()
  site = await startSite({ ...env, PORT: String(await freePort()) })
  const imported = await filtrate(["import", writeExtract(temporary.folder, extract), "--accept"], env)
  if (imported.exitCode !== 0) throw new Error(imported.stderr)
})

afterAll(async () => {
  await browser.close()
  site.child.kill("SIGINT")
  await site.finished
  temporary.remove()
})

test("no address, title, log or failure names a person or what is written of one", async () => {
  const page = await openPage(browser, { url: `${site.url}/patients` })
  const addresses: string[] = []
  const titles: string[] = []
  page.on("request", (request) => addresses.push(request.url()))
  const person = page.getByRole("link", { name: new RegExp(marker) }).first()
  await person.waitFor()
  const somebody = new URL((await person.getAttribute("href")) ?? "", site.url).pathname
  const screens = [
    "/",
    "/patients",
    somebody,
    "/measures",
    "/measures/bp-at-target",
    "/imports",
    "/imports/1",
  ]
  const rows = ["/imports/1/readings/2", "/settings"]
  const seen = new Set<string>()
  for (const address of [...screens, ...rows]) {
    await page.goto(site.url + address, { waitUntil: "networkidle" })
    titles.push(await page.title())
    if ((await page.content()).includes(marker)) seen.add(address)
  }
  await page.getByRole("link", { name: "Patients" }).first().click()
  await page
    .getByRole("link", { name: new RegExp(marker) })
    .first()
    .click()
  await page.waitForURL(/\/patients\//)

  const failures = await failEverywhere(somebody)

  expect([...seen]).toEqual(expect.arrayContaining([somebody, "/imports", "/imports/1/readings/2"]))
  expect(addresses.filter((address) => address.includes(marker))).toEqual([])
  expect(titles.filter((title) => title.includes(marker))).toEqual([])
  expect(await page.evaluate("JSON.stringify([{ ...localStorage }, document.cookie])")).not.toContain(marker)
  expect(failures.filter((body) => body.includes(marker))).toEqual([])
  expect(failures.filter((body) => /\bat \S+:\d+:\d+|select \w|node_modules|\/tmp\//.test(body))).toEqual([])
  const logs = readdirSync(dataDir).filter((name) => name.endsWith(".log"))
  expect(logs).toContain("site.log")
  for (const name of logs) expect(readFileSync(path.join(dataDir, name), "utf8")).not.toContain(marker)
  expect(site.said()).not.toContain(marker)
})

/** Makes each layer fail in turn and gives what the site said of it: bad addresses, bad forms, a damaged snapshot. */
async function failEverywhere(somebody: string): Promise<string[]> {
  const ask = async (address: string, init?: RequestInit) =>
    failureOf(await fetchSignedIn(site.url + address, init))
  const sent = { method: "POST", headers: { "sec-fetch-site": "same-origin" } }
  const badForm = new FormData()
  badForm.append("file", new Blob([`${marker},${marker}\n`]), "notes.txt")
  const answers = [
    await ask(`/patients/no-such-person`),
    await ask("/api/measures/no-such-measure/people"),
    await ask("/api/imports/9999999999999999999999/rejects"),
    await ask("/imports/99999999999999999999"),
    await ask("/api/imports", { ...sent, body: badForm }),
    await ask("/settings", {
      ...sent,
      headers: { ...sent.headers, "next-action": "0".repeat(42), "content-type": "text/plain" },
      body: JSON.stringify([marker]),
    }),
  ]
  const snapshots = readdirSync(dataDir, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".duckdb"))
    .map((name) => path.join(dataDir, name))
  expect(snapshots.length).toBeGreaterThan(0)
  for (const file of snapshots) writeFileSync(file, `${marker} no snapshot`)
  for (const address of ["/", somebody, "/api/tables/patients", "/api/measures/bp-at-target/people"])
    answers.push(await ask(address))
  return answers
}

/** What a failure says; an answer that succeeded is none. */
async function failureOf(answer: Response): Promise<string> {
  return answer.status < 400 ? "" : answer.text()
}
