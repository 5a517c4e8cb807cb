#include "harness/reading.hpp"

#include <array>

namespace halfsplit::harness {

namespace {

struct Figure {
    const char* name;
    double Assumptions::*member;
};

constexpr std::array<Figure, 43> figures{{{"connector_weight", &Assumptions::connector_weight},
                                          {"plug_weight", &Assumptions::plug_weight},
                                          {"splice_weight", &Assumptions::splice_weight},
                                          {"terminator_weight", &Assumptions::terminator_weight},
                                          {"module_weight", &Assumptions::module_weight},
                                          {"wire_weight_per_m", &Assumptions::wire_weight_per_m},
                                          {"flexing_factor", &Assumptions::flexing_factor},
                                          {"wet_factor", &Assumptions::wet_factor},
                                          {"worked_on_factor", &Assumptions::worked_on_factor},
                                          {"add_on_factor", &Assumptions::add_on_factor},
                                          {"unverified_factor", &Assumptions::unverified_factor},
                                          {"open_share", &Assumptions::open_share},
                                          {"joint_share", &Assumptions::joint_share},
                                          {"short_share", &Assumptions::short_share},
                                          {"nothing_wrong", &Assumptions::nothing_wrong},
                                          {"second_fault", &Assumptions::second_fault},
                                          {"contact_slip", &Assumptions::contact_slip},
                                          {"wrong_wire", &Assumptions::wrong_wire},
                                          {"meter_percent", &Assumptions::meter_percent},
                                          {"meter_digits", &Assumptions::meter_digits},
                                          {"meter_counts", &Assumptions::meter_counts},
                                          {"meter_lead_ohm", &Assumptions::meter_lead_ohm},
                                          {"meter_limit_ohm", &Assumptions::meter_limit_ohm},
                                          {"intermittent", &Assumptions::intermittent},
                                          {"intermittent_told", &Assumptions::intermittent_told},
                                          {"quiet_at_rest", &Assumptions::quiet_at_rest},
                                          {"quiet_when_provoked", &Assumptions::quiet_when_provoked},
                                          {"reseat_cures", &Assumptions::reseat_cures},
                                          {"buzzer_low_ohm", &Assumptions::buzzer_low_ohm},
                                          {"buzzer_high_ohm", &Assumptions::buzzer_high_ohm},
                                          {"silent_both_open", &Assumptions::silent_both_open},
                                          {"silent_one_open", &Assumptions::silent_one_open},
                                          {"silent_short", &Assumptions::silent_short},
                                          {"silent_terminator", &Assumptions::silent_terminator},
                                          {"silent_sound", &Assumptions::silent_sound},
                                          {"repair_fails", &Assumptions::repair_fails},
                                          {"clip_minutes", &Assumptions::clip_minutes},
                                          {"loom_minutes", &Assumptions::loom_minutes},
                                          {"unmate_minutes", &Assumptions::unmate_minutes},
                                          {"remate_minutes", &Assumptions::remate_minutes},
                                          {"power_on_minutes", &Assumptions::power_on_minutes},
                                          {"power_off_minutes", &Assumptions::power_off_minutes},
                                          {"sleep_minutes", &Assumptions::sleep_minutes}}};

}  // namespace

void read_assumptions(const Member& file, Reading& reading) {
    Assumptions& assumed = reading.harness.assumptions;
    for (const Figure& figure : figures) {
        if (!file.has(figure.name)) continue;
        assumed.*figure.member = file.number(figure.name, assumed.*figure.member);
        assumed.stated.emplace_back(figure.name);
    }
    if (assumed.buzzer_low_ohm > assumed.buzzer_high_ohm) {
        reading.findings.error("assumptions-disagree", file.pointer(),
                               {"buzzer_low_ohm is above buzzer_high_ohm",
                                "a buzzer that always sounds below the one and never above the other", "",
                                "exchange the two figures"});
    }
    if (assumed.open_share + assumed.joint_share + assumed.short_share <= 0) {
        reading.findings.error(
            "assumptions-disagree", file.pointer(),
            {"open_share, joint_share and short_share are all 0", "at least one of them above 0", "",
             "leave them out for the assumed 6, 3 and 1"});
    }
}

}  // namespace halfsplit::harness
