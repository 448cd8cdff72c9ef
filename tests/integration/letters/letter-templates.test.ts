import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { Caller } from "../../../lib/access/caller"
import { templatesInForce, type LetterTexts } from "../../../lib/domain/letter-template"
import { listLetterTemplates, writeLetterTemplate } from "../../../lib/store/letter-templates"
import { openOutreachClinic, type OutreachClinic } from "../../helpers/outreach-clinic"

// Letters as the site's role of the database writes them, in a clinic with one patient, Ingrid Sollie.

const now = new Date("2026-03-12T09:00:00Z")
const texts: LetterTexts = {
  ...{ letterhead: "{clinic}", subject: "A check is due", body: "Dear {name}" },
  ...{ closing: "Regards", ownWords: "" },
}

let clinic: OutreachClinic
let lead: Caller

beforeAll(async () => {
  clinic = await openOutreachClinic()
  lead = await clinic.callerFor("Ada", "clinic-lead")
  const patients = [
    "patient_id,given_name,family_name,birth_date,sex,registered_on",
    "P-1,Ingrid,Sollie,1960-05-01,female,2020-01-01",
  ]
  await clinic.bringIn({ patients }, now)
})

afterAll(() => clinic.close())

const write = (shown: number, of: Partial<LetterTexts> = {}, language = "es") =>
  writeLetterTemplate(clinic.app, { texts: { ...texts, ...of }, language, shown, caller: lead, now })
const inForce = async () =>
  templatesInForce(await listLetterTemplates(clinic.app)).map(({ language, version, subject }) => [
    language,
    version,
    subject,
  ])

describe("a letter of the clinic", () => {
  test("is written over the one that was shown, and each earlier one stays on record", async () => {
    expect(await write(0)).toBe("written")
    expect(await write(1, { subject: "Another" })).toBe("written")
    expect(await write(0, {}, "en")).toBe("written")

    expect(await inForce()).toEqual([
      ["es", 2, "Another"],
      ["en", 1, "A check is due"],
    ])
    const all = await listLetterTemplates(clinic.app)
    expect(all.map(({ language, version, writtenBy }) => [language, version, writtenBy])).toEqual([
      ["es", 1, "Ada"],
      ["es", 2, "Ada"],
      ["en", 1, "Ada"],
    ])
  })

  test("is not written over one that somebody wrote meanwhile, also when both write at once", async () => {
    expect(await write(0)).toBe("outdated")
    const both = await Promise.all([write(0, {}, "vi"), write(0, {}, "vi")])

    expect(both.toSorted()).toEqual(["outdated", "written"])
  })

  test("is withdrawn by an empty one and may be written again", async () => {
    expect(await write(1, { letterhead: "", subject: "", body: "", closing: "" }, "en")).toBe("written")
    expect((await inForce()).map(([language]) => language)).toEqual(["es", "vi"])

    expect(await write(2, {}, "en")).toBe("written")
    expect((await inForce()).map(([language]) => language)).toEqual(["es", "en", "vi"])
  })

  test("names no patient", async () => {
    expect(await write(3, { body: "As we wrote to Ingrid Sollie" }, "en")).toBe("names-person")
    expect(await write(3, { ownWords: "no-visit: ask P-1" }, "en")).toBe("names-person")
  })

  test("leaves in the audit log which language, in which version, and that it was withdrawn", async () => {
    const entries = await clinic.store.prisma.auditEntry.findMany({
      where: { action: "letter.write", objectId: "en" },
      orderBy: { seq: "asc" },
    })

    expect(entries.map(({ actorName, detail }) => [actorName, detail])).toEqual([
      ["Ada", { version: 1, isWithdrawn: false }],
      ["Ada", { version: 2, isWithdrawn: true }],
      ["Ada", { version: 3, isWithdrawn: false }],
    ])
  })

  test.each([
    ["changed", "update letter_templates set body = 'x'"],
    ["removed", "delete from letter_templates"],
  ])("is never %s by the site", async (_title, sql) => {
    await expect(clinic.app.$executeRawUnsafe(sql)).rejects.toThrow(/permission denied/)
  })
})
