import type { ReactNode } from "react"
import { AsidePart, ScreenTitle } from "../_ui/screen"
import { chosenMonthWords, type ChosenMonth } from "./months"
import { ReviewLinks } from "./review-links"
import type { Review } from "./reviews"

/** What a review asks and of which month, then the other reviews. */
export function ReviewHead(props: { review: Review; chosen: ChosenMonth; children: ReactNode }) {
  const { review, chosen } = props
  return (
    <>
      <ScreenTitle title={review.name} size="small">
        <p>{props.children}</p>
        <p>{chosenMonthWords(chosen)}</p>
      </ScreenTitle>
      <AsidePart>
        <ReviewLinks open={review} month={chosen.param} />
      </AsidePart>
    </>
  )
}
