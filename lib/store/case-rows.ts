import "server-only"
import { z } from "zod"
import { caseStates, closings, HeldReason, keptFromContact, type OutreachCase } from "../domain/outreach-case"
import { Prisma } from "./generated/client"

const day = z.string().nullable()

const Row = z.object({
  id: z.number(),
  patient_id: z.string(),
  version: z.number(),
  state: z.enum(caseStates),
  kept_from: z.enum(keptFromContact).nullable(),
  assigned_to: z.string().nullable(),
  snoozed_until: day,
  again_on: day,
  acknowledged_by: z.string().nullable(),
  closed_on: day,
  close_reason: z.enum(closings).nullable(),
  held_for: z.array(z.string()),
  held_urgent: z.array(z.string()),
  round: z.number(),
  reasons: z.array(HeldReason),
})

/** A case as the store has it. */
export type StoredCase = { id: number; patientId: string; version: number; case: OutreachCase }

/** The columns of a case and its reasons that its life is told by; for a select over `outreach_cases` as `c`. */
export const caseColumns = Prisma.sql`
  c.id, c.patient_id, c.version, c.state, c.kept_from, c.assigned_to::text as assigned_to,
  c.snoozed_until::text as snoozed_until, c.again_on::text as again_on, c.acknowledged_by::text as acknowledged_by,
  c.closed_on::text as closed_on, c.close_reason, coalesce(c.held_for, '{}') as held_for, coalesce(c.held_urgent, '{}') as held_urgent, c.round,
  coalesce((
    select jsonb_agg(jsonb_build_object('reason', r.reason, 'isUrgent', r.is_urgent, 'factOn', r.fact_on, 'value', r.value,
      'secondValue', r.second_value, 'comparator', r.comparator, 'fallsOutOn', r.falls_out_on) order by r.id)
    from outreach_case_reasons as r where r.case_id = c.id and r.ended_on is null), '[]'::jsonb) as reasons`

/** Rows of `caseColumns` as cases. */
export function casesOf(rows: unknown): StoredCase[] {
  return z.array(Row).parse(rows).map(caseOf)
}

function caseOf(row: z.infer<typeof Row>): StoredCase {
  const { id, patient_id: patientId, version, closed_on: closedOn, close_reason: reason } = row
  const heldFor = row.held_for.map((held) => ({ reason: held, isUrgent: row.held_urgent.includes(held) }))
  return {
    ...{ id, patientId, version },
    case: {
      ...{ state: row.state, reasons: row.reasons, keptFrom: row.kept_from, assignedTo: row.assigned_to },
      ...{ snoozedUntil: row.snoozed_until, againOn: row.again_on, acknowledgedBy: row.acknowledged_by },
      closed: closedOn === null || reason === null ? null : { on: closedOn, reason, heldFor },
      round: row.round,
    },
  }
}

/** The columns of a case that its life changes, as JSON for `jsonb_to_recordset`. */
export function lifeColumns({ case: one }: { case: OutreachCase }) {
  const heldFor = one.closed?.heldFor ?? []
  return {
    ...{ state: one.state, assigned_to: one.assignedTo, kept_from: one.keptFrom },
    ...{ snoozed_until: one.snoozedUntil, again_on: one.againOn, acknowledged_by: one.acknowledgedBy },
    ...{ closed_on: one.closed?.on ?? null, close_reason: one.closed?.reason ?? null, round: one.round },
    held_for: heldFor.map((held) => held.reason),
    held_urgent: heldFor.filter((held) => held.isUrgent).map((held) => held.reason),
  }
}
