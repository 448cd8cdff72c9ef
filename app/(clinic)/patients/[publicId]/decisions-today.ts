import type { Caller } from "../../../../lib/access/caller"
import { decisionTopics, type ClinicianDecision } from "../../../../lib/domain/clinician-decisions"
import { plainToday } from "../../../../lib/domain/plain-date"
import { decisionMeasures } from "../../../../lib/measures/decision-measures"
import type { PatientStanding } from "../../../../lib/questions/patient-standings"
import { store } from "../../../../lib/store/client"
import { listDecisions } from "../../../../lib/store/clinician-decisions"
import { callerScope } from "../../../_http/ask"
import { mayDecide } from "../../decisions/may-decide"
import { clinicTimeZone } from "../../time-zone"

export type TopicToday = {
  topic: ClinicianDecision["topic"]
  /** The one that was neither replaced nor taken back; it may have ended. */
  latest: ClinicianDecision | null
  earlier: ClinicianDecision[]
  /** Whether its measure asks this person and the caller decides about it. */
  isOpen: boolean
}

/** What was decided about a person as of today, by topic; topics without a decision that nobody is asked about are left out. */
export async function decisionsToday(asked: {
  publicId: string
  standings: readonly PatientStanding[]
  caller: Caller
}): Promise<{ topics: TopicToday[]; today: string }> {
  const { publicId, standings, caller } = asked
  const [all, timeZone] = await Promise.all([
    listDecisions(store(), { scope: await callerScope(), publicId }),
    clinicTimeZone(),
  ])
  const topics = decisionTopics.map((topic) => {
    const own = all.filter((one) => one.topic === topic)
    const latest = own.find((one) => one.undoneOn === null) ?? null
    const standing = standings.find((one) => one.measure_id === decisionMeasures[topic])?.standing
    const concerns = standing !== undefined && standing !== "outside" && standing !== "excluded"
    const isOpen = concerns && mayDecide(caller, topic)
    return { topic, latest, earlier: own.filter((one) => one !== latest), isOpen }
  })
  return {
    topics: topics.filter((one) => one.isOpen || one.latest !== null || one.earlier.length > 0),
    today: plainToday(new Date(), timeZone),
  }
}
