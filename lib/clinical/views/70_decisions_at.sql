-- Decisions in force on each as-of date, by topic.
select
  f.patient_id,
  w.as_of,
  max(case when f.topic = 'pressure' then f.kind end) as bp_decision,
  max(case when f.topic = 'ras_blocker' then f.kind end) as ras_decision,
  max(case when f.topic = 'sglt2_inhibitor' then f.kind end) as sglt2_decision,
  max(case when f.topic = 'diet' then f.kind end) as diet_decision
from decision_spans as f
join as_of_windows as w on f.made_on <= w.as_of and w.as_of < f.holds_until
where f.undone_on is null or f.undone_on > w.as_of
group by f.patient_id, w.as_of
