#include "run_program.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>

#include <sstream>
#include <stdexcept>

namespace gloam {
namespace {

std::vector<char*> pointers_to(std::vector<std::string>& words) {
    std::vector<char*> pointers;
    for (std::string& word : words) {
        pointers.push_back(word.data());
    }
    pointers.push_back(nullptr);
    return pointers;
}

std::string content_of(const std::filesystem::path& file) {
    std::stringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

}  // namespace

Outcome run_program(const test::Folder& folder, std::vector<std::string> arguments) {
    return run_program(folder, std::move(arguments), {"HOME=" + (folder / "").string()});
}

Outcome run_program(const test::Folder& folder, std::vector<std::string> arguments, Environment environment) {
    // ecCodes loses memory over damaged messages; leaks are looked for in process (leaks_of_eccodes.hpp).
    environment.emplace_back("ASAN_OPTIONS=detect_leaks=0");
    arguments.insert(arguments.begin(), {"timeout", "60", GLOAM_PROGRAM});
    const std::string out = (folder / "run.out").string();
    const std::string err = (folder / "run.err").string();
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 1, out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    pid_t child = 0;
    const int spawned = posix_spawnp(&child, "timeout", &actions, nullptr, pointers_to(arguments).data(),
                                     pointers_to(environment).data());
    posix_spawn_file_actions_destroy(&actions);
    int status = 0;
    if (spawned != 0 || waitpid(child, &status, 0) != child) {
        throw std::runtime_error("the program cannot be started");
    }
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), content_of(out),
            content_of(err)};
}

}  // namespace gloam
