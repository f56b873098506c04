// SPDX-License-Identifier: MIT
#include "manual.hpp"

#include <algorithm>
#include <array>

#include "built_in_files.hpp"
#include "command.hpp"
#include "turnwright/part/file_kind.hpp"
#include "turnwright/part/part_table.hpp"

namespace turnwright::cli {
namespace {

const std::string program = "turnwright";
constexpr std::array statuses{"topic.exit-0", "topic.exit-1", "topic.exit-2", "topic.exit-3"};

// A file to start from explains itself, line by line.
std::string starter(const std::string& kind) {
  const std::string* text = text_named(starter_files(), kind + ".yaml");
  return text != nullptr ? *text : "";
}

std::string list_text(const Words& words) {
  std::string text = words("topic.list") + "\n\n";
  for (const ListColumn& column : list_columns()) text += "  " + words.name(column.name) + "\n";
  return text;
}

// What stands before an option's value on the command line.
std::string option_text(const Option& o) {
  const std::string name = "--" + std::string(o.name);
  return o.value.empty() ? name : name + " " + std::string(o.value);
}
std::string sentence_of(const Option& o, const Words& words) {
  return words("option." + std::string(o.name));
}
std::string sentence_of(const Command& c, const Words& words) {
  return words("command." + std::string(c.name));
}

// ---- the manual page, in the macros of man(7)

// Text that no macro begins in and no hyphen is broken at.
std::string roff(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (out.empty() && (c == '.' || c == '\'')) out += "\\&";
    if (c == '-')
      out += "\\-";
    else if (c == '\\')
      out += "\\e";
    else
      out += c;
  }
  return out + "\n";
}
std::string section(const Words& words, const std::string& id) { return ".SH " + words(id) + "\n"; }
std::string item(const std::string& head, const std::string& text) {
  return ".TP\n.B " + roff(head) + roff(text);
}

std::string man_page(const Words& words) {
  std::string page = ".TH TURNWRIGHT 1 \"\" \"Turnwright " + std::string(version) + "\"\n";
  page += section(words, "man.name") + program + " \\- " + roff(words("man.what"));
  page += section(words, "man.synopsis") + ".B " + program + "\n" + roff(words("man.words"));
  page += section(words, "man.description") + roff(words("help.about"));
  page += section(words, "man.commands");
  for (const Command& c : commands())
    page += item(std::string(c.name) + " " + std::string(c.operands), sentence_of(c, words)) +
            ".br\n" + roff(std::string(c.example));
  page += section(words, "man.options");
  for (const Option& o : all_options()) page += item(option_text(o), sentence_of(o, words));
  page += section(words, "man.exit-status");
  for (std::size_t i = 0; i < statuses.size(); ++i)
    page += item(std::to_string(i), words(statuses[i]));
  page += section(words, "man.files") + roff(words("topic.shop-folder"));
  page += section(words, "man.see") + roff(words("topic.more"));
  return page;
}

// ---- completions

// "metric|inch" as its words; none of what the user names.
std::string values_of(const Option& o) {
  std::string values(o.value);
  if (values.find('|') == std::string::npos) return "";
  std::replace(values.begin(), values.end(), '|', ' ');
  return values;
}
std::string command_names() {
  std::string names;
  for (const Command& c : commands()) names += std::string(c.name) + " ";
  return names + "help";
}
std::string options_of(const Command& c) {
  std::string names;
  for (const Option& o : all_options())
    if (takes(c, o)) names += (names.empty() ? "--" : " --") + std::string(o.name);
  return names;
}

std::string bash_completion() {
  std::string text =
      "_turnwright() {\n"
      "  local word=\"${COMP_WORDS[COMP_CWORD]}\" before=\"${COMP_WORDS[COMP_CWORD-1]}\" "
      "words=\"\"\n"
      "  compopt -o default 2>/dev/null\n"
      "  if [ \"$COMP_CWORD\" = 1 ]; then\n    words=\"" +
      command_names() + "\"\n  elif [ \"$before\" = help ]; then\n    words=\"";
  for (const std::string& topic : topics()) text += topic + " ";
  text += command_names() + "\"\n  else\n    case \"$before\" in\n";
  for (const Option& o : all_options())
    if (!values_of(o).empty())
      text += "      --" + std::string(o.name) + ") words=\"" + values_of(o) + "\" ;;\n";
  text += "      *)\n        case \"${COMP_WORDS[1]}\" in\n";
  for (const Command& c : commands())
    text += "          " + std::string(c.name) + ") words=\"" + options_of(c) + "\" ;;\n";
  return text +
         "        esac\n        [[ $word == -* ]] || words=\"\" ;;\n    esac\n  fi\n"
         "  COMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n}\n"
         "complete -F _turnwright turnwright\n";
}

// A text between single quotes of a shell.
std::string in_quotes(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? "'\\''" : std::string(1, c);
  return out + "'";
}
// The same where a colon parts name and text.
std::string described(const std::string& name, const std::string& text) {
  std::string escaped;
  for (const char c : text) escaped += c == ':' ? "\\:" : std::string(1, c);
  return in_quotes(name + ":" + escaped);
}

std::string zsh_completion(const Words& words) {
  std::string text = "#compdef turnwright\nlocal -a found\nif (( CURRENT == 2 )); then\n  found=(";
  for (const Command& c : commands())
    text += "\n    " + described(std::string(c.name), sentence_of(c, words));
  text += ")\n  _describe command found\n  return\nfi\ncase ${words[CURRENT-1]} in\n";
  for (const Option& o : all_options())
    if (!values_of(o).empty())
      text += "  --" + std::string(o.name) + ") compadd " + values_of(o) + "; return ;;\n";
  text += "esac\ncase ${words[2]} in\n";
  for (const Command& c : commands()) {
    text += "  " + std::string(c.name) + ") found=(";
    for (const Option& o : all_options())
      if (takes(c, o))
        text += "\n    " + described("--" + std::string(o.name), sentence_of(o, words));
    text += ") ;;\n";
  }
  return text + "esac\n[[ ${words[CURRENT]} == -* ]] && _describe option found || _files\n";
}

std::string fish_completion(const Words& words) {
  std::string text;
  for (const Command& c : commands()) {
    const std::string name(c.name);
    text += "complete -c turnwright -n __fish_use_subcommand -f -a " + name + " -d " +
            in_quotes(sentence_of(c, words)) + "\n";
    for (const Option& o : all_options())
      if (takes(c, o))
        text += "complete -c turnwright -n '__fish_seen_subcommand_from " + name + "' -l " +
                std::string(o.name) + (o.value.empty() ? "" : " -r") +
                (values_of(o).empty() ? "" : " -a " + in_quotes(values_of(o))) + " -d " +
                in_quotes(sentence_of(o, words)) + "\n";
  }
  return text;
}

std::string shop_text(const Words& words) {
  return words("topic.shop-folder") + "\n\n" + starter("shop");
}
std::string cautions_text(const Words& words) { return words("topic.cautions") + "\n"; }
std::string exit_text(const Words& words) {
  std::string text;
  for (std::size_t i = 0; i < statuses.size(); ++i)
    text += std::to_string(i) + "  " + words(statuses[i]) + "\n";
  return text;
}
std::string part_text(const Words&) { return starter("part"); }
std::string request_text(const Words&) { return starter("request"); }
std::string week_text(const Words&) { return starter("week"); }
std::string bash_text(const Words&) { return bash_completion(); }

struct Topic {
  const char* name;
  std::string (*text)(const Words& words);
  bool listed = true;  // else for packages
};
constexpr std::array all_topics{Topic{"part", part_text},
                                Topic{"list", list_text},
                                Topic{"request", request_text},
                                Topic{"week", week_text},
                                Topic{"shop", shop_text},
                                Topic{"exit", exit_text},
                                Topic{"cautions", cautions_text},
                                Topic{"man", man_page, false},
                                Topic{"bash", bash_text, false},
                                Topic{"zsh", zsh_completion, false},
                                Topic{"fish", fish_completion, false}};

}  // namespace

std::vector<std::string> topics() {
  std::vector<std::string> names;
  for (const Topic& topic : all_topics)
    if (topic.listed) names.emplace_back(topic.name);
  return names;
}

std::optional<std::string> topic_text(const std::string& name, const Words& words) {
  for (const Topic& topic : all_topics)
    if (name == topic.name) return topic.text(words);
  return std::nullopt;
}

}  // namespace turnwright::cli
