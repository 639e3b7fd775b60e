-- +goose Up
-- What a look back needs of each event, in few bytes, in the order in which it is read: see the program's package trace. It is made
-- from the event and holds nothing else.
create table traces (
    job_id ordered_text not null,
    sequence bigint not null,
    trace bytea not null,
    primary key (job_id, sequence)
);

-- Events that should have a trace and have none: those of earlier programs.
create table untraced (
    job_id ordered_text not null,
    sequence bigint not null,
    primary key (job_id, sequence)
);

-- An earlier program may still be at work. The trace is stored by the statement that stores the event, before this looks.
-- +goose StatementBegin
create function miss_trace() returns trigger language plpgsql as $$
begin
    insert into untraced (job_id, sequence) select new.job_id, new.sequence
    where not exists (select from traces t where t.job_id = new.job_id and t.sequence = new.sequence);
    return null;
end;
$$;
-- +goose StatementEnd

create trigger events_without_trace after insert on events
for each row when (new.kind in ('inspection', 'readings', 'trial', 'decision', 'correction'))
execute function miss_trace();

insert into untraced (job_id, sequence) select job_id, sequence from events
where kind in ('inspection', 'readings', 'trial', 'decision', 'correction');
