import "server-only"

/** Everything the audit log records, with the words its screen and files use. */
export const auditActions = {
  "patient.open": "opened a patient",
  "patients.list": "listed patients",
  "patients.export": "took a list of patients as a file",
  "report.export": "took the documents of a month",
  "source-row.open": "opened a row of an extract",
  "import.open": "opened an import",
  "rejected-rows.export": "took rejected rows as a file",
  "import.start": "brought in an extract",
  "import.try": "tried an extract",
  "import.store": "stored an extract",
  "import.accept": "accepted an import",
  "import.decline": "declined an import",
  "held-rows.list": "listed held rows",
  "held-row.discard": "discarded a held row",
  "drug-text.map": "said what a drug text means",
  "drug-text.unmap": "took back what a drug text means",
  "figures.ask": "asked for the figures anew",
  "figures.build": "computed the figures",
  "figures.print": "printed counts and rates",
  "month.close": "closed a month",
  "month.reopen": "reopened a month",
  "settings.change": "changed settings",
  "chart-note.add": "wrote a note on a chart",
  "chart-note.undo": "took back a note on a chart",
  "baseline.set": "set the baseline of a measure",
  "baseline.undo": "took back the baseline of a measure",
  "settings.print": "printed settings",
  "site.start": "started the site",
  "sign-in": "signed in",
  "sign-in.fail": "failed to sign in",
  "sign-out": "signed out",
  "session.end": "ended a session",
  "identity.prove": "proved their identity again",
  "password.change": "changed a password",
  "factor.change": "changed a second factor",
  "link.make": "made a one-time link",
  "link.use": "used a one-time link",
  "users.list": "listed accounts",
  "user.make": "made an account",
  "user.change": "changed an account",
  "user.disable": "disabled an account",
  "action.add": "wrote a decision or an action",
  "action.close": "closed a decision or an action",
  "action.reopen": "opened a decision or an action again",
  "case.work": "worked on the case of a patient",
  "cases.update": "brought the cases up to date",
  "cases.list": "listed the patients to contact",
  "cases.export": "took the list of patients to contact",
  "letters.list": "listed the patients to write to",
  "letters.open": "opened letters to patients",
  "letters.export": "took letters to patients as a file",
  "letters.sent": "recorded letters as sent",
  "letter.write": "wrote or withdrew a letter of the clinic",
  "visits.list": "listed the patients booked on a day",
  "visits.export": "took the patients booked on a day as a file",
  "emergency.open": "opened emergency access",
  "emergency.end": "ended emergency access",
  "emergency.review": "reviewed emergency access",
  "access.refuse": "asked for what was not given",
  "audit.open": "read the audit log",
  "audit.export": "took the audit log as a file",
  "audit.verify": "verified the audit log",
  "record.export": "handed out a patient's record",
  "record.erase-ask": "asked for a patient's record to be erased",
  "record.erase-withdraw": "withdrew that a patient's record be erased",
  "record.erase": "erased a patient's record",
  "old.remove": "removed what is kept no longer",
  "record.de-identify": "made a de-identified extract",
} as const

export type AuditAction = keyof typeof auditActions

/** How it ended. */
export const auditOutcomes = ["done", "refused", "not found", "failed"] as const

export type AuditOutcome = (typeof auditOutcomes)[number]

export function isAuditAction(word: string): word is AuditAction {
  return Object.hasOwn(auditActions, word)
}
