// Starts a job on a harness file and says where to probe first: first_step HARNESS JOB.
#include <exception>
#include <halfsplit/report/step_text.hpp>
#include <halfsplit/session/session.hpp>
#include <iostream>

int main(int count, char** arguments) {
    if (count != 3) return 2;
    try {
        halfsplit::session::Session session(halfsplit::system_files(), halfsplit::system_clock(),
                                            {arguments[1], arguments[2], "", {}});
        session.enter(session.parse({"intake", "complaint=dead"}));
        session.enter(session.parse({"answers", "silent", "LIFT,REAR"}));
        session.enter(session.parse({"safe", "ignition=off", "bus=asleep", "battery=off", "waited=10"}));
        std::cout << "first: " << halfsplit::report::prompt_text(session.advise()) << '\n';
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
}
