import { z } from "zod"
import { dueLetters, type DueLetter } from "../../../(clinic)/outreach/letters/letters-answers"
import { letterFormats, parseChosenLetters } from "../../../(clinic)/outreach/letters/search-params"
import { AppError } from "../../../../lib/errors"
import { lettersCsv, lettersXlsx, type LetterLine } from "../../../../lib/export/letter-files"
import { answering, type Called } from "../../../_http/answer"
import { snapshotMeta } from "../../../_http/ask"
import { isProvenForLists, proveHref } from "../../../_http/prove"
import { takeTurn } from "../../../_http/rate-limit"
import { recorded } from "../../../_http/recorded"

export const dynamic = "force-dynamic"

const everyone = 1_000_000

const mediaTypes = {
  csv: "text/csv; charset=utf-8",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
} as const

/** The letters that are next as a file for a mail merge: those chosen, or all. */
export const GET = answering("people.export", async (request: Request, { caller }: Called) => {
  const now = new Date()
  const search = new URL(request.url).searchParams
  const format = z.enum(letterFormats).safeParse(search.get("format"))
  if (!format.success) throw new AppError("bad-request", "There is no file of this kind.")
  if (!isProvenForLists(caller, now))
    return new Response(null, { status: 303, headers: { location: proveHref("letters") } })
  takeTurn("exports", caller)
  const { letters: ids } = parseChosenLetters(Object.fromEntries(search))
  const asked = { snapshot: await snapshotMeta(), now, limit: everyone }
  const { on, letters } = await dueLetters({ ...asked, ...(ids === null ? {} : { ids }) })
  const lines = letters.map(lineOf)
  const file = format.data === "csv" ? lettersCsv(lines) : Buffer.from(await lettersXlsx(lines))
  const people = letters.map(({ row }) => row.one.public_id)
  await recorded(caller, { action: "letters.export", people, detail: { on, format: format.data } })
  return new Response(file, {
    headers: {
      "content-type": mediaTypes[format.data],
      "content-disposition": `attachment; filename="letters-${on}.${format.data}"`,
      "cache-control": "no-store",
    },
  })
})

function lineOf({ row: { one, person }, name, language, letter }: DueLetter): LetterLine {
  const { letterhead, subject, body, closing, reasons } = letter
  return {
    ...{ patientId: one.patientId, name, language, letterLanguage: letter.language },
    ...{ letterhead, subject, body, closing, reasons },
    ...{ clinician: person?.clinician_name ?? null, nextVisitOn: one.next_visit_on },
  }
}
