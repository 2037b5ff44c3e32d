"""The command line: calculations, refusals and exit codes, the server's start and end."""

from __future__ import annotations

import json
import re
import signal
import socket
import subprocess
import sys
from pathlib import Path

import httpx
import pytest
from click.testing import CliRunner

from pourwright import wire
from pourwright.actions.catalog import CATALOG
from pourwright.base.errors import Conflict
from pourwright.cli.data_folder import data_folder
from pourwright.cli.main import main
from pourwright.cli.start import bound
from pourwright.shop.tool import Cup
from web.client import Client

COMMAND = [sys.executable, "-c", "from pourwright.cli.main import main; main()"]


def run(*arguments: str, given: str = ""):
    return CliRunner().invoke(main, arguments, input=given)


def test_the_list_has_one_calculation_a_line():
    lines = run("calc", "--list").stdout.splitlines()
    assert [line.split()[0] for line in lines] == list(CATALOG)
    assert json.loads(run("calc", "--list", "--json").stdout)[0].keys() == {"name", "purpose"}


@pytest.mark.parametrize("name", CATALOG)
def test_command_line_and_http_give_the_same_answer(tmp_path, name):
    example = run("calc", name, "--example").stdout
    typed = run("calc", name, given=example)
    assert typed.exit_code == 0
    assert typed.stderr == ""
    over_http = Client(wire.world(tmp_path / "a.db")).calc(name, example.encode())
    assert json.loads(typed.stdout) == over_http.json()


def test_the_schema_holds_input_and_output():
    schema = json.loads(run("calc", "shop.price", "--schema").stdout)
    assert {"input", "output", "purpose"} <= schema.keys()


@pytest.mark.parametrize(
    ("arguments", "given", "code", "error"),
    [
        (["shop.check_code"], '{"code": NaN}', 2, "bad_input"),
        (["shop.check_code"], '{"code": ""}', 2, "bad_input"),
        (["shop.check_code"], "", 2, "bad_input"),
        ([], "", 2, "bad_input"),
        (["shop.nothing"], "{}", 3, "not_found"),
        (["shop.nothing", "--schema"], "", 3, "not_found"),
    ],
)
def test_a_refusal_is_one_json_object_with_its_exit_code(arguments, given, code, error):
    refused = run("calc", *arguments, given=given)
    assert refused.exit_code == code
    assert refused.stdout == ""
    assert json.loads(refused.stderr)["error"] == error


def test_no_answer_has_its_own_exit_code():
    example = json.loads(run("calc", "shop.batch_cost", "--example").stdout) | {"good": 0}
    refused = run("calc", "shop.batch_cost", given=json.dumps(example))
    assert refused.exit_code == 5
    assert json.loads(refused.stderr)["error"] == "no_answer"


def test_a_port_in_use_is_named():
    with (
        bound(0) as taken,
        pytest.raises(Conflict, match=f"port {taken.getsockname()[1]} is in use"),
    ):
        bound(taken.getsockname()[1])


def test_a_port_in_use_ends_the_start_with_one_sentence(tmp_path):
    with bound(0) as taken:
        port = taken.getsockname()[1]
        refused = run("start", "--port", str(port), "--store", str(tmp_path / "a.db"))
    assert refused.exit_code == 4
    assert refused.stderr.count("\n") == 1
    assert str(port) in refused.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("platform", "environment", "folder"),
    [
        ("linux", {"XDG_DATA_HOME": "{}/x"}, "x/pourwright"),
        ("win32", {"LOCALAPPDATA": "{}/l"}, "l/Pourwright"),
    ],
)
def test_data_live_where_the_system_keeps_them(tmp_path, platform, environment, folder):
    given = {k: v.format(tmp_path) for k, v in environment.items()}
    assert data_folder(platform, given) == tmp_path / folder
    assert (tmp_path / folder).is_dir()


def test_the_server_starts_answers_and_ends(tmp_path):
    server = subprocess.Popen(
        [*COMMAND, "start", "--port", "0", "--no-browser", "--store", str(tmp_path / "a.db")],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    try:
        assert server.stdout is not None
        ready = re.fullmatch(
            r"Pourwright is ready at (http://127\.0\.0\.1:[0-9]+)\n", server.stdout.readline()
        )
        assert ready, server.communicate(timeout=5)
        assert httpx.get(f"{ready[1]}/shelf").status_code == 200
        server.send_signal(signal.SIGINT)
        out, err = server.communicate(timeout=3)
    finally:
        server.kill()
    assert server.returncode == 0
    assert "everything is kept" in out
    assert err == ""


def test_the_demo_bench_is_filled_once(tmp_path):
    store = tmp_path / "demo.db"
    for _ in range(2):
        wire.fill_demo_if_empty(wire.world(store))
    with wire.world(store).bench() as bench:
        assert len(bench.records.all("mold")) == 2


def test_a_backup_is_a_whole_store(tmp_path):
    world = wire.world(tmp_path / "a.db")
    with world.bench() as bench:
        bench.records.save("cup", "c", Cup(name="Pint", volume_ml=473.0), expected_version=0)
        bench.commit()
    copied = run("backup", str(tmp_path / "b.db"), "--store", str(tmp_path / "a.db"))
    assert copied.exit_code == 0, copied.stderr
    with wire.world(tmp_path / "b.db").bench() as bench:
        assert bench.records.get("cup", "c").noun.name == "Pint"


def test_a_backup_of_nothing_is_refused(tmp_path):
    refused = run("backup", str(tmp_path / "b.db"), "--store", str(tmp_path / "none.db"))
    assert refused.exit_code == 3
    assert "none.db" in refused.stderr
    assert not Path(tmp_path / "b.db").exists()


def test_the_socket_is_taken_before_anything_else():
    with bound(0) as listening, socket.create_connection(listening.getsockname(), timeout=1):
        assert listening.getsockname()[0] == "127.0.0.1"
