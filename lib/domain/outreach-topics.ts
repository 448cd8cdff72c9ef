import { reasonIds, reasonList, reasonListProblem, urgentReasonIds } from "./reason-ids"
import { numberTopic, type SettingTopic } from "./setting-topic"
import { TypedText } from "./typed-text"

const mostLetters = 500

/** Reasons are called by their names on screens; here they are the words of their ids, as the domain knows no more. */
const namesOf = (ids: readonly string[]) => ids.map((id) => id.replaceAll("-", " ")).join(", ")

export const outreachTopics: readonly SettingTopic[] = [
  {
    id: "attempts",
    group: "outreach",
    name: "Attempts",
    question: "How often, and in how many ways, is contact tried before a letter is written?",
    keys: ["outreach.attempts", "outreach.channels"],
    choices: [
      {
        id: "three-by-two",
        name: "Three attempts by two channels",
        sets: { "outreach.attempts": 3, "outreach.channels": 2 },
        source: "common practice, no source",
      },
    ],
    fields: [
      { key: "outreach.attempts", name: "Attempts", unit: "attempts", least: 1, most: 10, step: 1 },
      { key: "outreach.channels", name: "By at least", unit: "channels", least: 1, most: 5, step: 1 },
    ],
    note: "After them a letter is proposed, and after the letter the clinician is told. This changes no figure.",
  },
  numberTopic({
    id: "booked-days",
    group: "outreach",
    name: "Visit soon",
    question: "Within how many days is a booked visit near enough that nobody calls?",
    field: { key: "outreach.bookedDays", unit: "days", least: 1, most: 60 },
    note: "14 days: common practice, no source. The reasons then stand on the visit's list; urgent ones are not held back.",
  }),
  numberTopic({
    id: "ahead-days",
    group: "outreach",
    name: "Look ahead",
    question: "How many days before a pressure or urine falls out of its window is it a reason?",
    field: { key: "outreach.aheadDays", unit: "days", least: 7, most: 180 },
    note: "60 days: common practice, no source.",
  }),
  {
    id: "letter-values",
    group: "outreach",
    name: "Clinical values in letters",
    question: "May a letter hold a reading or a result?",
    keys: ["outreach.letterValues"],
    choices: [
      {
        id: "no",
        name: "No: letters tell that something is due, and no value",
        sets: { "outreach.letterValues": "no" },
        source: "The minimum necessary: 45 CFR 164.502(b) (from memory)",
      },
      {
        id: "yes",
        name: "Yes: after each thing that is due, the latest reading or result behind it",
        sets: { "outreach.letterValues": "yes" },
        source: "common practice where letters go to a known address, no source",
      },
    ],
    fields: [],
    note: "A letter may be opened by somebody else. Local policy applies.",
  },
  {
    id: "urgent-text",
    group: "outreach",
    name: "What urgent rows say",
    question: "What is done when something urgent stands on the list?",
    keys: ["outreach.urgentText"],
    choices: [],
    fields: [],
    texts: [
      {
        key: "outreach.urgentText",
        name: "What urgent rows say",
        problemOf: urgentTextProblem,
        wordsOf: (text) => `"${text}"`,
      },
    ],
    note: "The text at the start: common practice, no source. Clinicians decide; local policy applies.",
  },
  {
    id: "reasons",
    group: "outreach",
    name: "Reasons",
    question: "Which reasons does the list use, and in which order?",
    keys: ["outreach.reasonsOff", "outreach.reasonOrder"],
    choices: [],
    fields: [],
    texts: [
      {
        key: "outreach.reasonsOff",
        name: "Reasons switched off",
        problemOf: reasonsOffProblem,
        wordsOf: (text) => (text === "" ? "none" : namesOf(reasonList(text))),
      },
      {
        key: "outreach.reasonOrder",
        name: "Order of the reasons",
        problemOf: reasonOrderProblem,
        wordsOf: (text) => (text === "" ? "the order of the program" : namesOf(reasonList(text))),
      },
    ],
    note: "All reasons, in the order of the program: common practice, no source. Urgent reasons stay on.",
  },
]

function urgentTextProblem(text: string): string | null {
  if (text === "") return "A text is needed."
  if (text.length > mostLetters) return `Takes at most ${mostLetters} letters.`
  return TypedText.safeParse(text).success ? null : "Holds a sign that nobody can read."
}

function reasonsOffProblem(text: string): string | null {
  const problem = reasonListProblem(text)
  if (problem !== null) return problem
  return reasonList(text).some((id) => urgentReasonIds.some((urgent) => urgent === id))
    ? "Urgent reasons cannot be switched off: they name what cannot wait."
    : null
}

/** An order names every reason, so that no later one is placed by chance. */
function reasonOrderProblem(text: string): string | null {
  const problem = reasonListProblem(text)
  if (problem !== null) return problem
  return text === "" || reasonList(text).length === reasonIds.length ? null : "Must name every reason once."
}
