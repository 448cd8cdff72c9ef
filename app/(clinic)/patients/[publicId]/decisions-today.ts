import type { Caller } from "../../../../lib/access/caller"
import { decisionTopics, type ClinicianDecision } from "../../../../lib/domain/clinician-decisions"
import { plainToday } from "../../../../lib/domain/plain-date"
import { decisionMeasures } from "../../../../lib/measures/decision-measures"
import { planWatchOfPerson, type WatchedPlan } from "../../../../lib/questions/plan-watch"
import type { PatientStanding } from "../../../../lib/questions/patient-standings"
import { store } from "../../../../lib/store/client"
import { listDecisions } from "../../../../lib/store/clinician-decisions"
import { ask, callerScope } from "../../../_http/ask"
import { mayDecide } from "../../decisions/may-decide"
import { clinicTimeZone } from "../../time-zone"

export type TopicToday = {
  topic: ClinicianDecision["topic"]
  /** The one that was neither replaced nor taken back; it may have ended. */
  latest: ClinicianDecision | null
  earlier: ClinicianDecision[]
  /** What became of the latest, where it is a plan that the figures know by now. */
  plan: WatchedPlan | null
  /** Whether its measure asks this person and the caller decides about it. */
  isOpen: boolean
}

/** What was decided about a person as of today, by topic; topics without a decision that nobody is asked about are left out. */
export async function decisionsToday(asked: {
  publicId: string
  asOf: string
  standings: readonly PatientStanding[]
  caller: Caller
}): Promise<{ topics: TopicToday[]; today: string }> {
  const { publicId, asOf, standings, caller } = asked
  const [all, plans, timeZone] = await Promise.all([
    listDecisions(store(), { scope: await callerScope(), publicId }),
    ask(planWatchOfPerson, { public_id: publicId, as_of: asOf }),
    clinicTimeZone(),
  ])
  const topics = decisionTopics.map((topic) => {
    const own = all.filter((one) => one.topic === topic)
    const latest = own.find((one) => one.undoneOn === null) ?? null
    const standing = standings.find((one) => one.measure_id === decisionMeasures[topic])?.standing
    const concerns = standing !== undefined && standing !== "outside" && standing !== "excluded"
    const isOpen = concerns && mayDecide(caller, topic)
    const plan = latest?.kind === "planned" ? planOf(plans, latest) : null
    return { topic, latest, plan, earlier: own.filter((one) => one !== latest), isOpen }
  })
  return {
    topics: topics.filter((one) => one.isOpen || one.latest !== null || one.earlier.length > 0),
    today: plainToday(new Date(), timeZone),
  }
}

function planOf(plans: readonly WatchedPlan[], { topic, madeOn }: ClinicianDecision): WatchedPlan | null {
  return (
    plans.find((one) => one.topic === topic && one.made_on === madeOn && one.state !== "taken back") ?? null
  )
}
