-- Who takes an SGLT2 inhibitor or finerenone on each as-of date: drugs that count for no class and matter to the kidney.
select
  spans.patient_id,
  w.as_of,
  bool_or(i.kind = 'sglt2_inhibitor') as on_sglt2_inhibitor,
  bool_or(i.ingredient = 'finerenone') as on_finerenone
from order_spans as spans
join order_ingredients as i on i.order_key = spans.order_key
join as_of_windows as w on spans.started_on <= w.as_of and (spans.ends_on is null or spans.ends_on > w.as_of)
where i.kind = 'sglt2_inhibitor' or i.ingredient = 'finerenone'
group by spans.patient_id, w.as_of
