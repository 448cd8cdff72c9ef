import { isInLastMonths } from "./day"
import { latestRecordDay, sodiumWithinYear } from "./diet"
import { compare, exact } from "./exact"
import type { Question } from "./question"

export const careQuestions: Question[] = [
  {
    id: "diet-sodium-within-limit",
    direction: "up",
    factOn: ({ sodium, on }) => latestRecordDay(sodium, on),
    ask: ({ isCkd, sodium, on }) => {
      const sodiumMg = sodiumWithinYear(sodium, on)
      return {
        isIn: isCkd,
        isUnknown: sodiumMg === null,
        isMet: sodiumMg !== null && compare(sodiumMg, exact("2000")) <= 0,
      }
    },
  },
  {
    id: "seen-by-dietitian",
    direction: "up",
    ask: ({ isCkd, egfr, person, on }) => ({
      isIn: isCkd && egfr !== null && egfr.egfr < 45,
      isMet: person.dietitianDays.some((day) => isInLastMonths(day, on, 12)),
    }),
  },
]
