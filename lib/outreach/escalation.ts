/** What the clinic does about an urgent row. Source: common practice, no source. */
export const defaultEscalation =
  "Urgent rows are told to the named clinician today by the clinic's own escalation rule; they are no call list."
