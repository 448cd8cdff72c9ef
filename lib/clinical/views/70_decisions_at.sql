-- Decisions in force on each as-of date, by topic; without an end day a decision holds for the months the clinic set.
select
  f.patient_id,
  w.as_of,
  max(case when f.topic = 'pressure' then f.kind end) as bp_decision,
  max(case when f.topic = 'ras_blocker' then f.kind end) as ras_decision,
  max(case when f.topic = 'sglt2_inhibitor' then f.kind end) as sglt2_decision,
  max(case when f.topic = 'diet' then f.kind end) as diet_decision
from decisions as f
join settings as s on true
join as_of_windows as w
  on f.made_on <= w.as_of and w.as_of < coalesce(f.ends_on, months_before(f.made_on, -s.decisions_months))
where f.undone_on is null or f.undone_on > w.as_of
group by f.patient_id, w.as_of
