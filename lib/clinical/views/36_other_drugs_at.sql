-- Who takes, on each as-of date, a drug that counts for no class and matters all the same: an SGLT2 inhibitor, finerenone, or
-- one that raises the pressure or blunts what lowers it.
select
  spans.patient_id,
  w.as_of,
  bool_or(i.kind = 'sglt2_inhibitor') as on_sglt2_inhibitor,
  bool_or(i.ingredient = 'finerenone') as on_finerenone,
  bool_or(coalesce(listed.interferes = 'yes', false)) as on_interfering_drug
from order_spans as spans
join order_ingredients as i on i.order_key = spans.order_key
left join drug_ingredients as listed on listed.ingredient = i.ingredient
join as_of_windows as w on spans.started_on <= w.as_of and (spans.ends_on is null or spans.ends_on > w.as_of)
where i.kind = 'sglt2_inhibitor' or i.ingredient = 'finerenone' or listed.interferes = 'yes'
group by spans.patient_id, w.as_of
