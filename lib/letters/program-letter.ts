import type { LetterTemplate } from "../domain/letter-template"

/**
 * The letter of the program, for a clinic that has written none: no diagnosis and no value. It cannot know how a clinic is
 * reached; a clinic's own letter says it. Source: common practice, no source; plain words as the trade's advice on letters
 * to patients asks (from memory).
 */
export const programLetter: LetterTemplate = {
  language: "en",
  letterhead: "{clinic}\n\n{today}",
  subject: "Please get in touch with us",
  body: `Dear {name},

We are writing about your care with us:

{reasons}

Please get in touch with {clinic}, in the way you usually reach us, to arrange what is needed. If it has been done already, please tell us, so that we do not write again.

If you feel unwell, do not wait for this: call us or your family doctor. In an emergency call the local emergency number.

If you would like this letter read to you, or in another language, please tell us.`,
  closing: "Kind regards,\n\n{clinic}",
  ownWords: "",
}

/** What the program says in place of something that is not on record. */
export const programAbsent = {
  "no-name": "patient",
  "no-clinician": "Your care team",
  "no-visit": "no visit is booked",
} as const
