#pragma once

#include <string>

namespace stirbench::library {

// content/ : $STIRBENCH_CONTENT, else beside the program, else ../share/stirbench/content, else the source
// tree it was built from. Independent of the working directory. Throws std::runtime_error that names the
// places tried.
std::string content_dir();
std::string assets_dir();

// The user's folder: `chosen` (--data) when not empty, else $STIRBENCH_DATA, else $XDG_DATA_HOME/stirbench,
// else ~/.local/share/stirbench. Not created here.
std::string data_dir(const std::string& chosen);

// Creates the folder (and its parents) and proves that it can be written. Empty: fine, else a message that
// names the folder and the remedy.
std::string make_writable(const std::string& dir);

// Whether a file could be written there, asked before long work; nothing is made or changed. Its folder may
// be missing when the one above can be written. Empty: it could, else a message with the remedy.
std::string why_not_writable(const std::string& file);

// Writes a file so that it is either the old or the new one: temp, fsync, rename, fsync of the folder. Empty
// = fine, else the message.
std::string write_atomically(const std::string& file, const std::string& text);

// Whole file; throws std::runtime_error naming it.
std::string read_file(const std::string& file);

}  // namespace stirbench::library
