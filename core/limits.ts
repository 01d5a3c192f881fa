/** Every bound of the program in one place, each with its reason. */

/** A line longer than this is no reading: the longest known readout line is under 200 bytes. */
export const LINE_BYTES_MAX = 1024;
/** Bytes without a terminator for this long are cut and shown as "bytes arrive but no lines". */
export const LINE_SILENCE_MS_MAX = 2000;
/**
 * Lines after opening that may be the rest of one whose beginning was missed, or what a device prints as it starts.
 * So many that fit nothing, with none that fits, are the wrong profile.
 */
export const LINES_BEFORE_SYNC_MAX = 8;
/** One read from a port; the serialport library reads at most 64 KiB at a time. */
export const CHUNK_BYTES_MAX = 65_536;
/** Raw bytes and readings are power-safe at least this often. */
export const COMMIT_INTERVAL_MS_MAX = 100;
/** Batches to the window per second; more than a screen can show is waste. */
export const VIEW_BATCHES_PER_S_MAX = 60;
/** Raw lines kept for the side-by-side view before anything is recorded. */
export const PREVIEW_LINES_MAX = 200;
/** Readings sent in one answer, so that an answer stays under 8 MiB. */
export const READINGS_PER_REPLY_MAX = 200_000;
/** Specimen, profile, scenario and rule files; the largest sensible one is a few kB. */
export const JSON_FILE_BYTES_MAX = 1_048_576;
/** Repeated measurements of one dimension. */
export const MEASUREMENTS_PER_DIMENSION_MAX = 50;
/** Free text of one field. */
export const TEXT_LENGTH_MAX = 2_000;
/** Names, identities. */
export const NAME_LENGTH_MAX = 300;
/** A recorder that has died is started again this many times in RECORDER_RESTART_WINDOW_MS, then a person is asked. */
export const RECORDER_RESTARTS_MAX = 8;
export const RECORDER_RESTART_WINDOW_MS = 60_000;
/** A window that has died is loaded again this many times in WINDOW_RELOAD_WINDOW_MS. */
export const WINDOW_RELOADS_MAX = 5;
export const WINDOW_RELOAD_WINDOW_MS = 60_000;
/** Every call into the serial library is raced against this. */
export const PORT_CALL_MS_MAX = 4_000;
/** A message between processes; a photograph and the longest reply fit. */
export const MESSAGE_BYTES_MAX = 64 * 1_048_576;
/** Readings of one curve: three hours at 1 000 Hz; a tension test takes minutes. */
export const CURVE_READINGS_MAX = 12_000_000;
/** A curve file; two million rows of six columns are under 200 MB. */
export const CURVE_FILE_BYTES_MAX = 512 * 1_048_576;
/** Archives up to this size are quick-checked at every opening: under a second; larger ones when somebody asks. */
export const ARCHIVE_QUICK_CHECK_BYTES_MAX = 256 * 1_048_576;
/**
 * During a pull the database's log is taken into the archive, between two commits, whenever about so much has gathered:
 * a few milliseconds each time, where one of WAL_BYTES_MAX would keep the next commit waiting longer than
 * COMMIT_INTERVAL_MS_MAX, and the log is written over where it stands instead of growing.
 */
export const WAL_TAKEN_IN_BYTES = 2 * 1_048_576;
/** Where it could not be taken in, and by whatever else writes much at once, it is taken in within a commit past this. */
export const WAL_BYTES_MAX = 64 * 1_048_576;
/** A recorder that listens accepts at once; longer means that it hangs or is none. */
export const RECORDER_CONNECT_MS_MAX = 2_000;
/** Longest wait for an answer of the recorder. */
export const RECORDER_ANSWER_MS_MAX = 60_000;
/**
 * The same for work on a whole archive, since it last told how far it is, and for the end of a record, however long it
 * was: only some of their steps take more than minutes.
 */
export const RECORDER_LONG_ANSWER_MS_MAX = 2 * 3_600_000;
/** A check lists so many findings of pulls that are sound, and so many faults; all are counted, and all fit in a message. */
export const CHECK_SOUND_LINES_MAX = 3_000;
export const CHECK_FAULT_LINES_MAX = 10_000;
/** An archive of this size still works; backups and checks of it take long, and files by year are easier to look after. */
export const ARCHIVE_LARGE_BYTES = 8 * 1_073_741_824;
/** One half of the spool: six minutes of a fast readout (20 kB/s) even when the archive can't be written to. */
export const SPOOL_SEGMENT_BYTES = 8 * 1_048_576;
/** Raw bytes and readings held in memory while the archive can't be written to; beyond, the loss is recorded. */
export const HELD_BYTES_MAX = 256 * 1_048_576;
/** What is held is committed this often, so that arrival, waiting and syncing together stay under COMMIT_INTERVAL_MS_MAX. */
export const COMMIT_INTERVAL_MS = 50;
/** Commits that are later than COMMIT_INTERVAL_MS_MAX at so many ticks (100 ms) in a row are told: not a single one that waited. */
export const LATE_TICKS_MAX = 30;
/** After a commit that failed (disk full) the same batch is tried again this often. */
export const COMMIT_RETRY_MS = 500;
/** No reading for this long is told to the operator, at the latest; slow readouts get ten of their intervals … */
export const SILENCE_MS_MIN = 2_000;
/** … but no more than this, unless that is less than two and a half of them. */
export const SILENCE_MS_SLOW = 10_000;
/** … which is never more than this: a readout that speaks once a minute may miss a line, and one that is slower is told. */
export const SILENCE_MS_MAX = 150_000;
/** A value older than this is no zero, however slow the readout: grips are set and touched in less (common practice, no source). */
export const ZERO_AGE_MS_MAX = 30_000;
/** A lost port is looked for again this often. */
export const REOPEN_INTERVAL_MS = 250;
/**
 * A record is held open so long after a break or a stop, so that either can be taken back: halves are fitted together
 * and slipped grips set anew within it; what a readout sends meanwhile is a few MB.
 */
export const RECORD_AFTER_BREAK_MS_MAX = 10 * 60_000;
/** A recorder without clients and without an open record ends after this. */
export const RECORDER_IDLE_MS = 15_000;
/** Raw bytes replayed to bring the parser to where it was before a crash: many lines of any readout. */
export const RECOVERY_REPLAY_BYTES = 65_536;
/** Readings kept in memory for clients that are a little behind; who is further behind asks the archive. */
export const VIEW_READINGS_MAX = 20_000;
/** Free space below this is told before and during a pull: room for an hour of a fast readout. */
export const FREE_BYTES_WARNING = 200 * 1_048_576;
/** Reading a copy of 100 GB once takes minutes; a check that takes longer does not end. */
export const BACKUP_CHECK_MS_MAX = 30 * 60_000;
/** Every pull of an archive of 100 GB read again, twice, and waits for pulls that are recorded meanwhile: days, not weeks. */
export const SPLIT_MS_MAX = 7 * 86_400_000;
/** An evaluation of the longest curve takes some seconds; one that takes longer does not end. */
export const EVALUATION_MS_MAX = 120_000;
/** A thread that has evaluated waits so long for the next evaluation, and at most so many wait: each holds some MB. */
export const EVALUATION_THREAD_WAITS_MS = 60_000;
export const EVALUATION_THREADS_WAITING_MAX = 2;
/** What an evaluation may take of the engine's heap, its columns not counted: a fault ends that thread, never the recorder. */
export const EVALUATION_HEAP_MIB_MAX = 2_048;
/** Learning from a whole file of bytes that look like numbers and are none takes half a minute; less than an answer may. */
export const LEARN_FILE_MS_MAX = 50_000;
/** An archive that another program has open is tried again this often. */
export const ARCHIVE_IN_USE_RETRY_MS = 1_000;
/** The strongest drawn wires bear half of it (common practice, no source); psi entered as MPa, or N as kN, lie above. */
export const STRENGTH_MPA_MAX = 10_000;
/**
 * Newest certificates about a pull that are composed anew to see whether they still say what stands: of its set, its
 * specimen and the pull itself, in two languages, they are six; a specimen may be in several sets. Those beyond are counted.
 */
export const CERTIFICATES_LOOKED_AT_MAX = 24;
/** Evaluations kept of one pull; a person makes a handful, a script that makes more has lost its way. */
export const EVALUATIONS_PER_PULL_MAX = 500;
/** Pulls of one specimen that a correction of it looks at; it breaks in one, and a few may have been stopped before. */
export const PULLS_PER_SPECIMEN_MAX = 100;
/** One photo of a broken specimen; the files of large cameras are below 15 MB. */
export const PHOTO_BYTES_MAX = 20_000_000;
/** A page that shows a photo needs four bytes a pixel; the largest common cameras of telephones have 108 million. */
export const PHOTO_PIXELS_MAX = 110_000_000;
/** Photos of one pull: both halves from all sides, and those that were withdrawn. */
export const PHOTOS_PER_PULL_MAX = 20;
/** Photos on one certificate in all; more are named with their hash and not printed. */
export const PHOTOS_ON_PAPER_BYTES_MAX = 40_000_000;
/** The camera is let go of after that, whoever forgot it. */
export const CAMERA_OPEN_MS_MAX = 300_000;
/** From the press to its first picture; the system may ask the person meanwhile. */
export const CAMERA_START_MS_MAX = 60_000;
/** Two instruments: a value of the second is joined to a load for so many of its intervals … */
export const JOINED_INTERVALS_MAX = 3;
/** … but at least so long, also where its rate is not known: the slowest common displays send twice a second … */
export const JOINED_AGE_MS_MIN = 600;
/** … and at most so long: a pull lasts a minute, and extension older than that belongs to another load. */
export const JOINED_AGE_MS_MAX = 2_000;
/** Archives that are looked through beside the open one. */
export const OTHER_ARCHIVES_MAX = 40;
