import { instant } from "../speech/format"

/** How the figures of a closed month stand to those kept when it was closed; null while they are computed. */
export type ClosedFiguresShown = { isReproduced: boolean; isOfTheseDefinitions: boolean } | null

/** "Closed by Ruth Alder, 3 November, 16:20." with what was noted. */
export function closedWords(
  closing: { closedBy: string; closedAt: Date; note: string },
  timeZone: string,
): string {
  const at = instant(closing.closedAt.toISOString(), timeZone)
  return `Closed by ${closing.closedBy}, ${at}${closing.note === "" ? "." : `: ${closing.note}`}`
}

export function closedStanding(shown: ClosedFiguresShown): string {
  if (shown === null) return "The figures as known then are being computed."
  if (shown.isReproduced)
    return "Figures as known then, to the last digit. Where later facts differ, it says what it would be today."
  if (!shown.isOfTheseDefinitions)
    return "Figures as kept then. By the definitions of this version some would come out otherwise; lists follow this version."
  return "Figures as kept then. Since a record was erased they can no longer be computed again; lists hold who is left."
}
