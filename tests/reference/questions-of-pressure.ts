import { ageInYears, minusMonths } from "./day"
import { doseChanges } from "./doses"
import { coursesOfClass, startsAfterPause } from "./drugs"
import type { Clinical } from "./clinical"
import { hasProblem, startsOfActive } from "./problems"
import {
  isAtTarget,
  isUnder140Over90,
  latestCountedDay,
  latestHomeAverage,
  lowestOfLatestDay,
  representativePressure,
  type Pressure,
} from "./pressure"
import type { Question } from "./question"

export const pressureQuestions: Question[] = [
  {
    id: "bp-at-target",
    direction: "up",
    factOn: ({ pressure }) => pressure?.on ?? null,
    ask: ({ isCkd, pressure }) => ({
      isIn: isCkd,
      isUnknown: pressure === null,
      isMet: pressure !== null && isAtTarget(pressure),
    }),
  },
  {
    id: "bp-under-140-90",
    direction: "up",
    factOn: ({ person, on }) => latestCountedDay(person.readings, on),
    ask: ({ person, on, egfr }) => {
      const lowest = lowestOfLatestDay(person.readings, on)
      const age = ageInYears(person.birth, on)
      const sixMonthsAgo = minusMonths(on, 6)
      const starts = startsOfActive(person, "hypertension", on)
      return {
        isIn: starts.some((start) => start <= sixMonthsAgo) && age >= 18 && age <= 85,
        isExcluded: hasProblem(person, "ckdStage5", on) || (egfr !== null && egfr.egfr < 15),
        isUnknown: lowest === null,
        isMet: lowest !== null && isUnder140Over90(lowest),
      }
    },
  },
  {
    id: "pressure-measured",
    direction: "up",
    ask: ({ isCkd, pressure }) => ({ isIn: isCkd, isMet: pressure !== null }),
  },
  {
    id: "plan-when-high",
    direction: "up",
    ask: (clinical) => {
      const { person, on, isCkd, pressure } = clinical
      const earlier = minusMonths(on, 3)
      const isStillHigh = isHigh(pressure) && isHigh(representativePressure(person.readings, earlier))
      return {
        isIn: isCkd && isStillHigh && pressure !== null && pressure.on > earlier,
        isMet: wasTreatmentAdded(clinical),
      }
    },
  },
  {
    id: "uncontrolled-on-several-classes",
    direction: "down",
    factOn: ({ pressure }) => pressure?.on ?? null,
    ask: (clinical) => {
      const { person, on, isCkd, classes, pressure } = clinical
      return {
        isIn: classes.length >= 3 && (isCkd || hasProblem(person, "hypertension", on)),
        isUnknown: !isMeasuredOnNewestClass(clinical),
        isMet: isHigh(pressure),
      }
    },
  },
  {
    id: "untreated-above-target",
    direction: "down",
    factOn: ({ pressure }) => pressure?.on ?? null,
    ask: ({ isCkd, classes, pressure }) => ({
      isIn: isCkd,
      isUnknown: pressure === null,
      isMet: isHigh(pressure) && classes.length === 0,
    }),
  },
  {
    id: "low-pressure-on-drugs",
    direction: "down",
    isSafety: true,
    factOn: ({ pressure }) => pressure?.on ?? null,
    ask: (clinical) => ({
      isIn: clinical.classes.length > 0,
      isUnknown: !isMeasuredOnNewestClass(clinical),
      isMet: clinical.pressure !== null && clinical.pressure.systolic < 110,
    }),
  },
  {
    id: "home-monitoring",
    direction: "up",
    ask: ({ person, on }) => ({
      isIn: hasProblem(person, "hypertension", on),
      isMet: latestHomeAverage(person.readings, on) !== null,
    }),
  },
]

function isHigh(pressure: Pressure | null): boolean {
  return pressure !== null && !isAtTarget(pressure)
}

/** Is the pressure of the day on which the newest of the active classes started, or later? */
function isMeasuredOnNewestClass({ pressure, newestClassOn }: Clinical): boolean {
  return pressure !== null && (newestClassOn === null || pressure.on >= newestClassOn)
}

/** Did a class start, or the dose of a drug of a class rise, within the last 3 months? */
function wasTreatmentAdded({ courses, on }: Clinical): boolean {
  const classes = new Set(
    courses.flatMap(({ ingredients }) => ingredients.flatMap((each) => each.class ?? [])),
  )
  const starts = [...classes].flatMap((drugClass) => startsAfterPause(coursesOfClass(courses, drugClass)))
  const raises = doseChanges(courses, on).filter(({ isRaise }) => isRaise)
  return [...starts, ...raises.map(({ day }) => day)].some((day) => day > minusMonths(on, 3) && day <= on)
}
