import type { PrismaClient } from "../../lib/store/generated/client"

/**
 * Brings one case of the clinic to where an action on cases has something to do: open, nobody's, with a reason that holds,
 * urgent for what acknowledges and closed for what reopens. The answer is what a form has to name.
 */
export async function prepareCase(
  prisma: PrismaClient,
  action: string,
): Promise<{ id: string[]; version: string[]; note: string[]; until: string[] }> {
  const { id } = await prisma.outreachCase.findFirstOrThrow({
    where: { reasons: { some: { endedOn: null } } },
    orderBy: { id: "asc" },
  })
  const isUrgent = action === "acknowledgeCase"
  await prisma.outreachCaseReason.updateMany({ where: { caseId: id }, data: { isUrgent } })
  const free = { keptFrom: null, assignedTo: null, snoozedUntil: null, againOn: null }
  const unseen = { acknowledgedBy: null, acknowledgedAt: null }
  const open = { state: "open", closedAt: null, closedOn: null, closedBy: null, closeReason: null }
  const now = new Date()
  const closed = { state: "closed", closedAt: now, closedOn: now, closedBy: "Lead", closeReason: "done" }
  const state = action === "reopenCase" ? closed : open
  const { version } = await prisma.outreachCase.update({
    where: { id },
    data: { ...free, ...unseen, ...state, heldFor: [], heldUrgent: [] },
  })
  const inAWeek = new Date(now.getTime() + 7 * 86_400_000).toISOString().slice(0, 10)
  return {
    ...{ id: [String(id)], version: [String(version)] },
    ...{ note: ["The clinician on call was told"], until: [inAWeek] },
  }
}
