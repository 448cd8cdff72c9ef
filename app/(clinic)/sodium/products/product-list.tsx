import type { KidneyProduct } from "../../../../lib/questions/kidney-products"
import styles from "./products.module.css"

const concerns: readonly { id: KidneyProduct["concern"]; title: string }[] = [
  { id: "contraindicated", title: "Dangerous with kidney disease" },
  { id: "potassium", title: "Much potassium" },
  { id: "oxalate", title: "Much oxalate" },
  { id: "mixed", title: "Mixed herbal products" },
  { id: "pressure", title: "Pressure and sodium" },
  { id: "figures", title: "Laboratory values and transplants" },
]

/** The products by what is of concern, each with why and where that is from. */
export function ProductList({ products }: { products: readonly KidneyProduct[] }) {
  return concerns.map(({ id, title }) => (
    <section key={id} aria-labelledby={`concern-${id}`} className={styles.concern}>
      <h2 id={`concern-${id}`}>{title}</h2>
      <dl>
        {products
          .filter((product) => product.concern === id)
          .map((product) => (
            <div key={product.product}>
              <dt>
                {product.product}
                {product.also === null ? null : <span className={styles.also}>{product.also}</span>}
              </dt>
              <dd>
                {product.why}
                <span className={styles.source}>
                  {product.source} ({product.read}).
                </span>
              </dd>
            </div>
          ))}
      </dl>
    </section>
  ))
}
