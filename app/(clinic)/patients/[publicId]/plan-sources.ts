import type { WatchedPlan } from "../../../../lib/questions/plan-watch"
import type { PatientAnswers } from "./patient-answers"

type Line = Pick<PatientAnswers["line"], "courses" | "labs">

/** The import rows behind what became of a plan: the orders that began or changed on the day of the start, and the tests after it. */
export function planSources(plan: WatchedPlan, { courses, labs }: Line): string[] {
  const { topic, started_on: startedOn, potassium_on: potassiumOn, creatinine_on: creatinineOn } = plan
  if (startedOn === null) return []
  const begun = courses.filter(
    (course) =>
      (course.started_on === startedOn || course.step_days.includes(startedOn)) && isOfTopic(course, topic),
  )
  const tests = labs.filter(
    ({ series, day }) =>
      (series === "potassium" && day === potassiumOn) || (series === "egfr" && day === creatinineOn),
  )
  return [...new Set([...begun, ...tests].flatMap((one) => one.sources))]
}

function isOfTopic(course: Line["courses"][number], topic: WatchedPlan["topic"]): boolean {
  if (topic === "pressure") return course.class !== null
  return topic === "ras_blocker" ? course.class === "ras_blocker" : course.kind === "sglt2_inhibitor"
}
