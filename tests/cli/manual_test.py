"""Help by topic, the manual page and completions from the records of options, and the usual shop folder."""
import os
import shutil
import subprocess
import sys
import unittest

ROOT = os.environ["ROOT"]
sys.path.insert(0, os.path.join(ROOT, "tests"))
from program import SHOP, folder, run, sample  # noqa: E402

COMMANDS = ["quote", "offer", "route", "compare", "tune", "explain", "rates", "load", "promise", "actuals", "figure", "cut", "card", "check", "new"]


class Manual(unittest.TestCase):
    def test_help_in_a_language_is_help(self):
        for words in (("--help", "--language", "de"), ("help", "--language=de"), ("help", "week", "--language", "de")):
            status, out, err = run(*words)
            self.assertEqual((status, err), (0, ""))
            self.assertGreater(len(out), 200)

    def test_every_topic_has_a_text_in_both_languages(self):
        for topic in ("part", "list", "request", "week", "shop", "exit", "cautions"):
            for language in ("en", "de"):
                status, out, err = run("help", topic, "--language", language)
                self.assertEqual((status, err), (0, ""))
                self.assertGreater(len(out), 100)
        self.assertIn("  bore from right\n", run("help", "list")[1])
        self.assertIn("3  ", run("help", "exit")[1])

    def test_an_unknown_topic_names_its_neighbour(self):
        status, out, err = run("help", "wekk")
        self.assertEqual((status, out), (2, ""))
        self.assertIn("no topic 'wekk'; did you mean 'week'?", err)
        self.assertEqual(run("help", "quote"), run("quote", "--help"))

    def test_the_manual_page_has_every_command_and_option(self):
        page = run("help", "man")[1]
        for command in COMMANDS:
            self.assertIn(f".B {command}", page)
            for line in run(command, "--help")[1].splitlines():
                if line.startswith("  --"):
                    option = line.split()[0]
                    self.assertIn(".B " + option.replace("-", "\\-"), page)
        if shutil.which("man"):
            done = subprocess.run(["man", "--warnings", "-E", "UTF-8", "-l", "-Tutf8", "-"], input=page, capture_output=True, text=True, env=dict(os.environ, MANWIDTH="80"))
            self.assertEqual((done.returncode, done.stderr), (0, ""))

    def test_completions_are_scripts_and_know_every_option(self):
        for shell in ("bash", "zsh", "fish"):
            script = run("help", shell)[1]
            for word in COMMANDS + ["workbooks", "stick-out", "metric inch"]:
                self.assertIn(word, script)
            if shutil.which(shell):
                done = subprocess.run([shell, "-n"], input=script, capture_output=True, text=True)
                self.assertEqual((done.returncode, done.stderr), (0, ""))
        ask = run("help", "bash")[1] + "\nCOMP_WORDS=(turnwright quote --u); COMP_CWORD=2; _turnwright; echo \"${COMPREPLY[@]}\"\n"
        done = subprocess.run(["bash"], input=ask, capture_output=True, text=True)
        self.assertEqual(done.stdout.strip(), "--units")

    def test_the_version_names_the_libraries(self):
        out = run("--version")[1]
        self.assertRegex(out, r"yaml-cpp \d+\.\d+.*libxlsxwriter \d+\.\d+")


class UsualShop(unittest.TestCase):
    def test_an_empty_folder_uses_the_settings_and_the_option_wins(self):
        with folder() as work:
            named = run("quote", sample("02-bush-blank.yaml"), "--shop", SHOP)[1]
            shop = os.path.join(work, "turnwright", "shop")
            shutil.copytree(SHOP, shop)
            nothing = {"HOME": "/nowhere", "XDG_CONFIG_HOME": "", "TURNWRIGHT_SHOP": ""}
            shipped = run("quote", sample("02-bush-blank.yaml"), env=nothing)[1]
            self.assertNotEqual(shipped, named)
            self.assertIn("Rates that ship with the program; no shop folder\n", shipped)
            for env in ({"XDG_CONFIG_HOME": work}, {"TURNWRIGHT_SHOP": shop}):
                status, out, err = run("quote", sample("02-bush-blank.yaml"), env={**nothing, **env})
                # The folder that was used stands on the quote itself.
                self.assertEqual((status, out.replace(shop, SHOP)), (0, named))
                self.assertIn(f"Rates of the shop folder {shop}\n", out)
                self.assertEqual(err, f"rates of the shop folder {shop}\n")
            status, out, err = run("quote", sample("02-bush-blank.yaml"), "--shop", SHOP, env={**nothing, "TURNWRIGHT_SHOP": "/none"})
            self.assertEqual((out, err), (named, ""))
            status, _, err = run("quote", sample("02-bush-blank.yaml"), env={**nothing, "TURNWRIGHT_SHOP": "/none"})
            self.assertEqual(status, 3)


if __name__ == "__main__":
    unittest.main()
