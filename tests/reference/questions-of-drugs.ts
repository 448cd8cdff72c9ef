import { hasRasAllergyReason } from "./allergies"
import type { Clinical } from "./clinical"
import { isInLastDays, isInLastMonths, type Day } from "./day"
import { doseChanges } from "./doses"
import type { DrugClass } from "./drug-list"
import { classesOn, coursesOfClass, stopsUpTo } from "./drugs"
import { isAbove, potassiums } from "./lab-results"
import { countedReadings } from "./pressure"
import type { Question } from "./question"
import {
  isDualRasBlockade,
  isOnAceInhibitorOrArb,
  isOnDrugThatRaisesPotassium,
  isOnRasBlockerOfAnyKind,
  rasStarts,
} from "./ras-blockers"
import { decidingResult } from "./urine"

export const drugQuestions: Question[] = [
  {
    id: "ras-blocker-in-albuminuria",
    direction: "up",
    factOn: ({ urine, on }) => decidingResult(urine, on)?.day ?? null,
    ask: ({ person, on, egfr, albuminuria, courses, potassium, pressure }) => {
      const isPotassiumHigh =
        potassium !== null &&
        isInLastDays(potassium.day, on, 90) &&
        isAbove(potassium, potassium.value, "5.5")
      const isPressureLow = pressure !== null && pressure.systolic < 110 && isInLastDays(pressure.on, on, 90)
      return {
        isIn: albuminuria === "confirmed",
        isExcluded: egfr !== null && egfr.egfr < 15,
        isMet: isOnAceInhibitorOrArb(courses, on),
        isException: hasRasAllergyReason(person.allergies, on) || isPotassiumHigh || isPressureLow,
      }
    },
  },
  {
    id: "ras-start-checked",
    direction: "up",
    ask: ({ person, on, courses }) => {
      const lastStart = on - 28
      const starts = rasStarts(courses).filter(
        (start) => isInLastMonths(start, lastStart, 12) && start > person.registeredOn + 90,
      )
      const creatinines = person.labs.filter((lab) => lab.test === "creatinine" && !lab.isPreliminary)
      return {
        isIn: starts.length > 0,
        isMet: starts.every(
          (start) =>
            hasOneWithin(potassiums(person.labs, on), start + 1, start + 28) &&
            hasOneWithin(creatinines, start + 1, start + 28),
        ),
      }
    },
  },
  {
    id: "potassium-high-on-ras",
    direction: "down",
    isSafety: true,
    factOn: ({ potassium }) => potassium?.day ?? null,
    ask: ({ on, courses, potassium }) => ({
      isIn: isOnDrugThatRaisesPotassium(courses, on),
      isUnknown: potassium === null || !isInLastMonths(potassium.day, on, 12),
      isMet: potassium !== null && isAbove(potassium, potassium.value, "5.5"),
    }),
  },
  {
    id: "dual-ras-blockade",
    direction: "down",
    isSafety: true,
    ask: ({ on, courses }) => ({
      isIn: isOnRasBlockerOfAnyKind(courses, on),
      isMet: isDualRasBlockade(courses, on),
    }),
  },
  {
    id: "abrupt-stop",
    direction: "down",
    isSafety: true,
    ask: (clinical) => {
      const stopped = classesStopped(clinical, clinical.on - 60, clinical.on).filter(
        ({ drugClass }) => drugClass === "central_agonist" || drugClass === "beta_blocker",
      )
      const answers = stopped.map(({ drugClass, stops }) =>
        wasAbrupt(clinical, drugClass, Math.max(...stops)),
      )
      return {
        isIn: answers.length > 0,
        isUnknown: answers.includes("unknown") && !answers.includes("yes"),
        isMet: answers.includes("yes"),
      }
    },
  },
  {
    id: "followed-after-stopping",
    direction: "up",
    ask: (clinical) => {
      const { person, on } = clinical
      const stops = classesStopped(clinical, on - 120, on - 30).flatMap((each) => each.stops)
      const readings = countedReadings(person.readings)
      return {
        isIn: stops.length > 0,
        isMet: stops.every((stop) => hasOneWithin(readings, stop + 1, stop + 30)),
      }
    },
  },
]

/** The classes not active on the day that stopped after one day and up to another, each with those stops. */
function classesStopped(
  { courses, on }: Clinical,
  after: Day,
  upTo: Day,
): { drugClass: DrugClass; stops: Day[] }[] {
  const all = new Set(courses.flatMap(({ ingredients }) => ingredients.flatMap((each) => each.class ?? [])))
  const active = classesOn(courses, on)
  return [...all]
    .filter((drugClass) => !active.includes(drugClass))
    .map((drugClass) => ({
      drugClass,
      stops: stopsUpTo(coursesOfClass(courses, drugClass), on).filter((stop) => stop > after && stop <= upTo),
    }))
    .filter(({ stops }) => stops.length > 0)
}

/** Was the class stopped with no lower dose in the 30 days before and no reading in the 14 days after? */
function wasAbrupt(
  { person, on, courses }: Clinical,
  drugClass: DrugClass,
  stop: Day,
): "yes" | "no" | "unknown" {
  const reductions = doseChanges(courses, on).filter(
    (change) => change.drugClass === drugClass && !change.isRaise,
  )
  const wasTapered = hasOneWithin(reductions, stop - 30, stop - 1)
  const wasRead = hasOneWithin(countedReadings(person.readings), stop + 1, Math.min(stop + 14, on))
  if (wasTapered || wasRead) return "no"
  return on < stop + 14 ? "unknown" : "yes"
}

function hasOneWithin(dated: { day: Day }[], from: Day, to: Day): boolean {
  return dated.some(({ day }) => day >= from && day <= to)
}
