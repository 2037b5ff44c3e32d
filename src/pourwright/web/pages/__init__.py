"""The one list of pages: a page added here has its address, and its nav entry if it has an icon."""

from __future__ import annotations

from pourwright.web.page import Page
from pourwright.web.pages.bait import BAIT_PAGES
from pourwright.web.pages.bench import BENCH_PAGES
from pourwright.web.pages.charts import CHART_PAGES
from pourwright.web.pages.cup import CUP_PAGES
from pourwright.web.pages.defects import DEFECT_PAGES
from pourwright.web.pages.exchange import EXCHANGE_PAGES
from pourwright.web.pages.import_shape import IMPORT_PAGES
from pourwright.web.pages.inside_cup import INSIDE_PAGES
from pourwright.web.pages.job import JOB_PAGES
from pourwright.web.pages.kit import KIT_PAGES
from pourwright.web.pages.look import LOOK_PAGES
from pourwright.web.pages.look_card import LOOK_CARD_PAGES
from pourwright.web.pages.look_color import LOOK_COLOR_PAGES
from pourwright.web.pages.look_compare import LOOK_COMPARE_PAGES
from pourwright.web.pages.look_echo import LOOK_ECHO_PAGES
from pourwright.web.pages.look_optics import LOOK_OPTICS_PAGES
from pourwright.web.pages.look_picture import LOOK_PICTURE_PAGES
from pourwright.web.pages.lot_picture import LOT_PICTURE_PAGES
from pourwright.web.pages.lot_pot import LOT_POT_PAGES
from pourwright.web.pages.make_mold import MAKE_MOLD_PAGES
from pourwright.web.pages.mix_pots import MIX_PAGES
from pourwright.web.pages.mold import MOLD_PAGES
from pourwright.web.pages.money import MONEY_PAGES
from pourwright.web.pages.order_entry import ORDER_ENTRY_PAGES
from pourwright.web.pages.orders import ORDERS, ORDERS_PAGES
from pourwright.web.pages.pair_phone import PAIR_PAGES
from pourwright.web.pages.phones import PHONES_PAGES
from pourwright.web.pages.photo_tap import PHOTO_PAGES
from pourwright.web.pages.plan import PLAN_PAGES
from pourwright.web.pages.pour_day import POUR_DAY_PAGES
from pourwright.web.pages.prices import PRICES_PAGES
from pourwright.web.pages.puck_guide import PUCK_PAGES
from pourwright.web.pages.question import QUESTION_PAGES
from pourwright.web.pages.rack_bag import RACK_BAG_PAGES
from pourwright.web.pages.rack_bags import RACK, RACK_BAGS_PAGES
from pourwright.web.pages.rack_labels import RACK_LABEL_PAGES
from pourwright.web.pages.reach import REACH_PAGES
from pourwright.web.pages.record_form import FORM_PAGES
from pourwright.web.pages.record_history import HISTORY_PAGES
from pourwright.web.pages.record_list import BAITS, LOOKS, SHELF, WORKPLACE
from pourwright.web.pages.record_retire import RETIRE_PAGES
from pourwright.web.pages.sale import SALE_PAGES
from pourwright.web.pages.scorch_budget import SCORCH_PAGES
from pourwright.web.pages.sell import SELL_PAGES
from pourwright.web.pages.shapes import SHAPE_PAGES
from pourwright.web.pages.sheet import SHEET_PAGES
from pourwright.web.pages.stock import STOCK_PAGES
from pourwright.web.pages.thermometer_check import THERMOMETER_PAGES
from pourwright.web.pages.to_bench import TO_BENCH
from pourwright.web.pages.today import BOOK, TODAY_PAGES

PAGES: tuple[Page, ...] = (
    *TODAY_PAGES,
    *PLAN_PAGES,
    TO_BENCH,
    LOOKS,
    *POUR_DAY_PAGES,
    BAITS,
    SHELF,
    RACK,
    ORDERS,
    BOOK,
    *CHART_PAGES,
    WORKPLACE,
    *LOOK_CARD_PAGES,
    *LOOK_COLOR_PAGES,
    *LOT_PICTURE_PAGES,
    *LOT_POT_PAGES,
    *LOOK_COMPARE_PAGES,
    *LOOK_ECHO_PAGES,
    *LOOK_PICTURE_PAGES,
    *LOOK_OPTICS_PAGES,
    *LOOK_PAGES,
    *PUCK_PAGES,
    *PHOTO_PAGES,
    *QUESTION_PAGES,
    *RACK_BAGS_PAGES,
    *RACK_BAG_PAGES,
    *RACK_LABEL_PAGES,
    *REACH_PAGES,
    *THERMOMETER_PAGES,
    *SHEET_PAGES,
    *BENCH_PAGES,
    *CUP_PAGES,
    *INSIDE_PAGES,
    *SCORCH_PAGES,
    *JOB_PAGES,
    *ORDER_ENTRY_PAGES,
    *ORDERS_PAGES,
    *SELL_PAGES,
    *SALE_PAGES,
    *MIX_PAGES,
    *STOCK_PAGES,
    *PHONES_PAGES,
    *PAIR_PAGES,
    *EXCHANGE_PAGES,
    *IMPORT_PAGES,
    *BAIT_PAGES,
    *MAKE_MOLD_PAGES,
    *MOLD_PAGES,
    *MONEY_PAGES,
    *SHAPE_PAGES,
    *DEFECT_PAGES,
    *PRICES_PAGES,
    *KIT_PAGES,
    *FORM_PAGES,
    *HISTORY_PAGES,
    *RETIRE_PAGES,
)
