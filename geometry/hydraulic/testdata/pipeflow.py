"""Second opinion on pipe flow from the open library fluids: reads cases from
standard input as JSON, answers with the Darcy friction factor by Colebrook and
the velocity by Manning."""
import json
import sys

from fluids.friction import Colebrook
from fluids.open_flow import V_Manning

answers = []
for case in json.load(sys.stdin):
    diameter = 4 * case["hydraulicM"]
    answers.append({
        "friction": Colebrook(Re=case["velocity"] * diameter / case["viscosity"], eD=case["roughnessM"] / diameter),
        "manning": V_Manning(Rh=case["hydraulicM"], S=case["slope"], n=case["n"]),
    })
json.dump(answers, sys.stdout)
