-- +goose Up
-- What was booked before.
insert into bays (id, revision)
select distinct e.body::jsonb #>> '{bay,id}', 1 from events e
join jobs j on j.id = e.job_id and j.stage <> 'cancelled'
where e.sequence = (select max(l.sequence) from events l where l.job_id = e.job_id and l.kind in ('booked', 'details'))
    and e.body::jsonb #>> '{bay,id}' is not null;

insert into bay_holds (job_id, start_at, end_at, bay_id)
select e.job_id, (extract(epoch from (b.block ->> 'start')::timestamptz) * 1000000)::bigint,
    (extract(epoch from (b.block ->> 'end')::timestamptz) * 1000000)::bigint, e.body::jsonb #>> '{bay,id}'
from events e
join jobs j on j.id = e.job_id and j.stage <> 'cancelled'
cross join lateral jsonb_array_elements(e.body::jsonb #> '{bay,blocks}') b (block)
where e.sequence = (select max(l.sequence) from events l where l.job_id = e.job_id and l.kind in ('booked', 'details'))
    and e.body::jsonb #>> '{bay,id}' is not null;
