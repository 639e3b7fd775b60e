-- +goose Up
-- What a look back needs of each event, in few bytes, in the order in which it is read: see the program's package trace. It is made
-- from the event and holds nothing else.
create table traces (
    job_id ordered_text not null,
    sequence bigint not null,
    trace blob not null,
    primary key (job_id, sequence)
) without rowid;

-- Events that should have a trace and have none: those of earlier programs.
create table untraced (
    job_id ordered_text not null,
    sequence bigint not null,
    primary key (job_id, sequence)
) without rowid;

insert into untraced (job_id, sequence) select job_id, sequence from events
where kind in ('inspection', 'readings', 'trial', 'decision', 'correction');

-- An earlier program may still have the file open. A trace comes before its event.
-- +goose StatementBegin
create trigger events_without_trace after insert on events
when new.kind in ('inspection', 'readings', 'trial', 'decision', 'correction')
    and not exists (select 1 from traces t where t.job_id = new.job_id and t.sequence = new.sequence)
begin
    insert into untraced (job_id, sequence) values (new.job_id, new.sequence);
end;
-- +goose StatementEnd
