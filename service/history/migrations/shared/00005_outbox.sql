-- +goose Up
-- Other systems that are told of jobs, and what each is still to be told. Secrets are a JSON list.
create table listeners (
    id ordered_text not null primary key,
    url text not null,
    secrets text not null,
    allow_private integer not null,
    created_at bigint not null,
    stopped text not null
);

create table tellings (
    listener_id ordered_text not null references listeners (id) on delete cascade,
    job_id ordered_text not null,
    sequence bigint not null,
    kind ordered_text not null,
    tries integer not null,
    due_at bigint not null,
    given_up integer not null,
    why text not null,
    primary key (listener_id, job_id, sequence)
);
