-- Who took two kinds of RAS blocker on every day of the overlap that ends on each as-of date. A shorter overlap may be a switch.
select r.patient_id, w.as_of
from drug_runs as r
join as_of_windows as w on r.started_on <= w.overlap_from and (r.ends_on is null or r.ends_on > w.as_of)
where r.what = 'kind'
group by r.patient_id, w.as_of
having count(distinct r.word) >= 2
