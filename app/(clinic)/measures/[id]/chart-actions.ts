"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { z } from "zod"
import { longestNote, PlainMonth } from "../../../../lib/domain/chart-marks"
import { PlainDate, plainToday } from "../../../../lib/domain/plain-date"
import { RowNumber } from "../../../../lib/domain/row-number"
import { TypedText } from "../../../../lib/domain/typed-text"
import { baselineChoices } from "../../../../lib/figures/baseline"
import { dietSodium } from "../../../../lib/measures/diet-sodium"
import { findMeasure } from "../../../../lib/measures/index"
import { setBaseline, undoBaseline } from "../../../../lib/store/chart-baselines"
import { addChartNote, undoChartNote } from "../../../../lib/store/chart-notes"
import { store } from "../../../../lib/store/client"
import { namesSomebody } from "../../../../lib/store/names-somebody"
import { formField } from "../../../_http/form-field"
import { requireScreenUser } from "../../../_http/require-user"
import { assertSameOrigin } from "../../../_http/same-origin"
import { currentSnapshot } from "../../snapshot"
import { clinicTimeZone } from "../../time-zone"

const MeasureId = z.string().refine((id) => id === dietSodium.id || findMeasure(id) !== undefined)
const Said = TypedText.trim().min(1).max(longestNote)
const Reach = z.enum(["this", "all"])

/** `saved` counts what was saved, so that the form is empty again after each. */
export type MarkAnswer = { problem: string | null; saved: number }

const namesPatient = "It names a patient. Notes are read by people who may not see patients."

/** Writes a note on a day, on the charts of one measure or of all. */
export async function addNote(before: MarkAnswer, form: FormData): Promise<MarkAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("charts.note")
  const measureId = formField(MeasureId, form.get("measure"))
  const reach = formField(Reach, form.get("reach"))
  const onDay = PlainDate.safeParse(form.get("on"))
  const text = Said.safeParse(form.get("text"))
  const now = new Date()
  if (!onDay.success || onDay.data > plainToday(now, await clinicTimeZone()))
    return { ...before, problem: "A day up to today is needed." }
  if (!text.success) return { ...before, problem: `A note of up to ${longestNote} characters is needed.` }
  if (await namesSomebody(store(), text.data)) return { ...before, problem: namesPatient }
  await addChartNote(store(), {
    ...{ measureId: reach === "all" ? null : measureId, onDay: onDay.data, text: text.data, caller, now },
  })
  refresh()
  return { problem: null, saved: before.saved + 1 }
}

/** Takes a note back; it stays on record. */
export async function undoNote(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("charts.note")
  await undoChartNote(store(), { id: formField(RowNumber, form.get("id")), caller, now: new Date() })
  refresh()
}

/** Takes a measure's baseline from another year, with the reason. */
export async function setOwnBaseline(before: MarkAnswer, form: FormData): Promise<MarkAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("charts.note")
  const measureId = formField(MeasureId, form.get("measure"))
  const fromMonth = formField(PlainMonth, form.get("from"))
  const reason = Said.safeParse(form.get("reason"))
  const snapshot = await currentSnapshot()
  if (!snapshot || !baselineChoices(snapshot.asOfs).includes(fromMonth))
    return { ...before, problem: "A baseline takes twelve complete months of those shown." }
  if (!reason.success) return { ...before, problem: `A reason of up to ${longestNote} characters is needed.` }
  if (await namesSomebody(store(), reason.data)) return { ...before, problem: namesPatient }
  await setBaseline(store(), { measureId, fromMonth, reason: reason.data, caller, now: new Date() })
  refresh()
  return { problem: null, saved: before.saved + 1 }
}

/** Goes back to the first year shown; the baseline stays on record. */
export async function undoOwnBaseline(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("charts.note")
  await undoBaseline(store(), { id: formField(RowNumber, form.get("id")), caller, now: new Date() })
  refresh()
}
