//! The outcome of a bank or a shot, in words: the sentences that commands, scripts and pictures show.

pub mod amounts;
mod asked_units;
mod axis_text;
mod bank;
pub mod caution;
mod chance_words;
mod choice;
mod conditions;
mod corrected;
mod counts;
mod detail;
mod discovered;
mod earlier;
pub mod edge;
mod film;
mod finding;
mod fit;
mod frontier;
mod input_format;
mod known_bank;
mod miss;
mod missed;
mod models;
mod moments;
mod next_banks;
mod outcome;
mod own_player;
mod rail_models;
mod readings;
pub mod reason;
mod seen_place;
mod selection;
mod set_up;
mod shot;
mod shot_chance;
mod speeds;
mod spot;
mod start_table;
mod stepped;
mod sweep;
mod track;
mod way_out;
mod wording;

pub use asked_units::AskedUnits;
pub use axis_text::{AxisText, listed, short_ticks};
pub use bank::{
    bank_happening, bank_headline, bank_less_sure, bank_readings, bank_sent, bank_sentences,
    bank_units, page_words, player_sentence, speeds_side_by_side,
};
pub use chance_words::{behind_words, chance_words, times_words};
pub use choice::{ball_way_words, bank_or_cut_sentence, bank_or_cut_sentences, why_not};
pub use conditions::shot_conditions;
pub use corrected::{corrected_sentences, table_words};
pub use counts::{less_sure, outcome_counts, shot_counts};
pub use detail::Detail;
pub use discovered::discovered_sentences;
pub use earlier::of_an_earlier_run;
pub use finding::{
    FindingAcross, FindingAxis, FindingCount, FindingGroup, finding, sureness_once,
    without_sureness,
};
pub use fit::{fit_conditions, fit_sentences, slope_step, span, tied_words};
pub use frontier::FrontierTelling;
pub use input_format::InputFormat;
pub use known_bank::known_tables;
pub use miss::NO_REMEDY;
pub use missed::missed_sentences;
pub use models::{model_about, models_of};
pub use next_banks::{next_banks_sentences, purpose_words, worth_words};
pub use outcome::{bank_outcome, rail_met, shot_outcome};
pub use own_player::{own_player_about, own_player_sentences};
pub use rail_models::rail_model_sentences;
pub use readings::{PlayedLines, THROUGH_THE_DIAMONDS, line_readings};
pub use seen_place::seen_words;
pub use selection::SelectedBanks;
pub use set_up::{off_rail_words, set_up_words, speed_words};
pub use shot_chance::shot_chance_sentence;
pub use speeds::speeds_turned_round;
pub use spot::spot_sentence;
pub use start_table::{BOTH_READINGS, NOT_TO_SCALE, starts_labels, starts_note, starts_title};
pub use sweep::{sweep_conditions, sweep_place, things_played};
pub use track::track_sentences;
pub use way_out::slope_of_sweep;
pub use wording::{
    capital, count, degrees, grouped_count, joined, percent, phrase, share_of, unbroken,
};
