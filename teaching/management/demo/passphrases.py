"""Passphrases of the demo: four plain words, drawn anew at every load. 126 words, so 27 bits: demo only."""

import secrets

LIST = """
acorn amber anchor apple arbour ash aspen autumn bank barley barn basket beacon bean beech bell berry birch
blossom boat book bramble bread bridge brook broom candle canoe cedar chalk cherry clay cliff cloud clover
coast copper coral cottage cove cricket crumb daisy dune eagle elder ember fern ferry field finch fjord flint
forest fox garden gate ginger grain granite grove harbour harvest hazel heather hedge heron hill honey ice
island ivory ivy jasmine juniper kettle kite lake lantern larch lark lemon lily linen loft maple marble meadow
mill mint moss mushroom nettle nutmeg oak oat olive orchard otter owl path pear pebble pepper pine plum pond
poppy quartz quill rain reed ridge river robin rope rose saffron sail salt sand seed shell silver slate
sparrow
"""
WORDS = LIST.split()


def passphrase() -> str:
    return " ".join(secrets.choice(WORDS) for _ in range(4))
