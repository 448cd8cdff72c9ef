/** What came of a form of a case. `saved` counts what was recorded, so that the form is empty again after each. */
export type CaseSent = {
  problem: string | null
  saved: number
  /** The version of the case to send next where the page has an earlier one. */
  version: number | null
  typed: Readonly<Record<string, string>>
}

export const nothingSent: CaseSent = { problem: null, saved: 0, version: null, typed: {} }

/** A case as its forms need it. */
export type FormCase = {
  id: number
  version: number
  /** Whom it is about, for names of fields and buttons. */
  name: string
  today: string
  isClosed: boolean
  /** Asked not to be contacted, left or died: a note is all that can be recorded. */
  isKept: boolean
  isUrgent: boolean
  assignedTo: string | null
  isMine: boolean
  /** As the person prefers to be contacted. */
  channel: string | null
  /** Of the caller: whether they may acknowledge, whether they have to say who was told, what they did last. */
  mayAcknowledge: boolean
  mustSayWhoWasTold: boolean
  canTakeBack: boolean
}
