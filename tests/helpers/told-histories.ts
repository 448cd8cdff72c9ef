import type { TestStore } from "./open-store"

/** A reason of somebody as it went, with the attempts to contact them; `person` alone is one with nothing to tell. */
export type ToldReason = {
  person: string
  reason: string
  began: string
  ended?: string
  why?: "by the facts" | "switched off" | "not followed"
  attempts?: readonly [on: string, outcome: string][]
  /** Of something urgent: the day it was acknowledged, or "no" of one that nobody did. */
  acknowledged?: string
  keptFrom?: string
}

/** Writes such histories as a year of looks and calls would have left them, the last look on `lookedOn`. */
export async function tellHistories(
  { prisma }: Pick<TestStore, "prisma">,
  { told, lookedOn }: { told: readonly ToldReason[]; lookedOn: string },
): Promise<void> {
  const names = [...new Set(told.map((one) => one.person))]
  const dayOf = (day: string) => new Date(`${day}T00:00:00Z`)
  for (const patientId of names) {
    const own = told.filter((one) => one.person === patientId)
    await prisma.patient.create({ data: { patientId } })
    const { id: caseId } = await prisma.outreachCase.create({
      data: {
        ...{ patientId, state: "open", openedAt: dayOf("2026-01-01"), lookedOn: dayOf(lookedOn) },
        keptFrom: own.find((one) => one.keptFrom)?.keptFrom ?? null,
      },
    })
    await prisma.outreachCaseReason.createMany({
      data: own.map((one) => ({
        ...{
          caseId,
          patientId,
          reason: one.reason,
          isUrgent: one.acknowledged !== undefined,
          beganOn: dayOf(one.began),
        },
        endedOn: one.ended === undefined ? null : dayOf(one.ended),
        endedWhy: one.ended === undefined ? null : (one.why ?? "by the facts"),
      })),
    })
    await prisma.outreachEvent.createMany({
      data: own.flatMap(({ acknowledged: on }) =>
        on === undefined || on === "no"
          ? []
          : {
              ...{ caseId, patientId, kind: "acknowledge", onDay: dayOf(on), at: dayOf(on), byName: "Ada" },
              ...{ fromState: "open", toState: "open", round: 1 },
            },
      ),
    })
    await prisma.outreachEvent.createMany({
      data: own.flatMap((one) =>
        (one.attempts ?? []).map(([on, outcome]) => ({
          ...{ caseId, patientId, kind: "attempt", onDay: dayOf(on), at: dayOf(on), byName: "Ada" },
          ...{ fromState: "open", toState: "open", round: 1, channel: "phone", outcome },
        })),
      ),
    })
  }
}
