//! Rail models, in words.

use railproof_engine::equipment::RailModel;
use railproof_engine::sweep::{Input, Plan, Values};

/// The models of a plan in the order of the engine's list.
pub fn models_of(plan: &Plan) -> Vec<RailModel> {
    let chosen: Vec<RailModel> = match plan.axis(Input::RailModel).map(|axis| &axis.values) {
        Some(Values::Models(models)) => models.clone(),
        _ => match plan.axis(Input::Equipment).map(|axis| &axis.values) {
            Some(Values::Equipment(tables)) => {
                tables.iter().map(|equipment| equipment.cushion.rail_model).collect()
            }
            _ => Vec::new(),
        },
    };
    RailModel::ALL.into_iter().filter(|model| chosen.contains(model)).collect()
}

/// The meaning of a rail model, in a phrase.
pub const fn model_about(model: RailModel) -> &'static str {
    match model {
        RailModel::NoseAndCloth => "impulses at the nose and at the cloth together",
        RailModel::NoseOnly => "one impulse at the raised nose, cloth left out",
        RailModel::Planar => "one impulse at the ball's equator",
        RailModel::Compliant => {
            "a second opinion: a soft cushion stepped in time; planar, first order in the step"
        }
    }
}
