#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs a program on a screen of its own: on-a-screen.py PROGRAM ARGUMENT... Ends with its exit status."""
import os
import subprocess
import sys

read, write = os.pipe()
screen = subprocess.Popen(['Xvfb', '-displayfd', str(write), '-screen', '0', '1366x860x24', '-noreset', '-nolisten',
                           'tcp'], pass_fds=[write], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
os.close(write)
try:
    with os.fdopen(read) as pipe:
        display = ':' + pipe.readline().strip()
    done = subprocess.run(sys.argv[1:], env=dict(os.environ, DISPLAY=display), check=False)
finally:
    screen.terminate()
    screen.wait()
sys.exit(done.returncode)
