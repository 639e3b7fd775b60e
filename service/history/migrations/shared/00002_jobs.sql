-- +goose Up
-- Times are whole microseconds since 1970 UTC; null is "not said". JSON is kept as the text that was written.

create table vehicles (
    id ordered_text not null primary key,
    revision bigint not null,
    label text not null,
    label_key ordered_text not null,
    traits text not null,
    created_at bigint not null,
    updated_at bigint not null
);

create index vehicles_by_label on vehicles (label_key, id);

-- The outside of each job, kept beside its events and made from them.
create table jobs (
    id ordered_text not null primary key,
    vehicle_id ordered_text not null references vehicles (id),
    stage ordered_text not null,
    label text not null,
    notes text not null,
    booked_for bigint,
    created_at bigint not null,
    updated_at bigint not null,
    last_sequence bigint not null
);

create index jobs_by_age on jobs (created_at, id);

create index jobs_by_vehicle on jobs (vehicle_id, created_at, id);

create index jobs_by_stage on jobs (stage, created_at, id);

create table events (
    job_id ordered_text not null references jobs (id),
    sequence bigint not null,
    kind ordered_text not null,
    version integer not null,
    recorded_at bigint not null,
    happened_at bigint,
    recorded_by text not null,
    request_id text not null,
    body text not null,
    document text,
    primary key (job_id, sequence)
);

-- Rule sets by content hash, so that an old decision can be explained by the rules that made it.
create table rule_sets (
    hash ordered_text not null primary key,
    files text not null,
    kept_at bigint not null
);
