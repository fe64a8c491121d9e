"""The parts of a pattern, to write one in Python: what stands under the keys of a file.

    from knotplot.models import Cord, Fringe, LarksHead, Size, SquareKnotMesh, Strands

    knotplot.Pattern(
        knotplot=1, size=Size(width="30 cm", drop="40 cm"), cord=Cord(diameter="4 mm"),
        strands=Strands(count=24), mount=LarksHead(rod="12 mm"),
        sections=[SquareKnotMesh(rows=4), Fringe(length="8 cm")],
    )

Each takes the keys it has in a file, as keywords, and raises `PatternError` for values that would
be at fault there. Lengths have their units, since only a pattern says what a bare number is in.
"""

from knotplot.motifs.motif import Motif as Motif
from knotplot.motifs.steps import AddStep as AddStep
from knotplot.motifs.steps import BothStep as BothStep
from knotplot.motifs.steps import CrossStep as CrossStep
from knotplot.motifs.steps import EndStep as EndStep
from knotplot.motifs.steps import GapStep as GapStep
from knotplot.motifs.steps import HitchStep as HitchStep
from knotplot.motifs.steps import KnotStep as KnotStep
from knotplot.motifs.steps import MirrorStep as MirrorStep
from knotplot.motifs.steps import RepeatStep as RepeatStep
from knotplot.motifs.steps import VerticalStep as VerticalStep
from knotplot.mounts.hitched import Hitched as Hitched
from knotplot.mounts.larks_head import LarksHead as LarksHead
from knotplot.mounts.open_ import Open as Open
from knotplot.mounts.picot import Picot as Picot
from knotplot.mounts.reverse_larks_head import ReverseLarksHead as ReverseLarksHead
from knotplot.mounts.ring import Ring as Ring
from knotplot.mounts.rod_pocket import RodPocket as RodPocket
from knotplot.pattern.models import Pattern as Pattern
from knotplot.pattern.parts import Allowance as Allowance
from knotplot.pattern.parts import Colours as Colours
from knotplot.pattern.parts import Cord as Cord
from knotplot.pattern.parts import Cords as Cords
from knotplot.pattern.parts import Cut as Cut
from knotplot.pattern.parts import LowerEdge as LowerEdge
from knotplot.pattern.parts import Opening as Opening
from knotplot.pattern.parts import Size as Size
from knotplot.pattern.parts import Strands as Strands
from knotplot.pattern.parts import Support as Support
from knotplot.pattern.parts import Swatch as Swatch
from knotplot.pattern.parts import Work as Work
from knotplot.sections.columns import Columns as Columns
from knotplot.sections.columns import Part as Part
from knotplot.sections.free import Free as Free
from knotplot.sections.fringe import Fringe as Fringe
from knotplot.sections.gather import Gather as Gather
from knotplot.sections.hitch_line import HitchLine as HitchLine
from knotplot.sections.motif_band import MotifBand as MotifBand
from knotplot.sections.repeat import Repeat as Repeat
from knotplot.sections.sennits import Sennits as Sennits
from knotplot.sections.square_knot_mesh import SquareKnotMesh as SquareKnotMesh
from knotplot.sections.tassel import Tassel as Tassel
