/** What came of recording letters as sent: how many were, until when they are waited for, and who was left and why. */
export type LettersSent = {
  problem: string | null
  sent: number
  againOn: string | null
  left: readonly { id: number; name: string; why: string }[]
}

export const nothingRecorded: LettersSent = { problem: null, sent: 0, againOn: null, left: [] }
