import type { Metadata } from "next"
import { kidneyProducts } from "../../../../lib/questions/kidney-products"
import { ask } from "../../../_http/ask"
import { requireScreenUser } from "../../../_http/require-user"
import { Screen, ScreenTitle } from "../../../_ui/screen"
import { EmptyClinic } from "../../empty-clinic"
import { currentSnapshot } from "../../snapshot"
import { ProductList } from "./product-list"
import { ProductsCaution } from "./products-caution"

export const metadata: Metadata = { title: "Products of concern" }

export default async function ProductsPage() {
  await requireScreenUser("people.see")
  if (!(await currentSnapshot())) return <EmptyClinic />
  const products = await ask(kidneyProducts)
  return (
    <Screen
      aside={
        <ScreenTitle title="Products of concern">
          Supplements and herbal products to ask about in kidney disease.
        </ScreenTitle>
      }
    >
      <ProductsCaution />
      <ProductList products={products} />
    </Screen>
  )
}
