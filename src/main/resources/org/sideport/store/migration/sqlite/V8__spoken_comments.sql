-- What is said aloud in a comment. sha256 names the sound file in the folder "voice"; seen is what was on the screen
-- meanwhile, captions what is said as text: both as JSON, described at
-- the class VoiceJson.
create table spoken_comment (
    comment_id text primary key references moment_comment (id) on delete cascade,
    sha256     text not null check (length(sha256) = 64),
    length_us  integer not null check (length_us > 0),
    seen       text not null,
    captions   text not null
);
