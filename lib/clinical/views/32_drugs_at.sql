-- What each patient takes on each as-of date. Lists: the word list of classes is what the definitions hand out,
-- and no portable aggregate keeps a sorted set.
select
  c.patient_id,
  w.as_of,
  list_sort(list(distinct c.class)) as classes,
  cast(count(distinct c.class) as integer) as class_count,
  list_sort(list(distinct c.kind)) as kinds,
  max(c.course_started_on) as newest_class_on,
  bool_or(c.kind in ('ace_inhibitor', 'arb')) as on_ras_blocker
from class_orders as c
join as_of_windows as w on c.started_on <= w.as_of and (c.ends_on is null or c.ends_on > w.as_of)
group by c.patient_id, w.as_of
