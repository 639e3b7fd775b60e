import { phrase } from "../words/phrase";

// Body says every panel of a plain car laid flat: roof in the middle, sides folded out. It is a map to tap, drawn for no vehicle
// there is.
export type BodyPanel = { id: string; part: string; shape: string; at: [number, number] };

const left = (id: string, part: string, y: number, h: number, x = 56, w = 66): BodyPanel => ({
  id,
  part,
  shape: `M${x + 10} ${y + 2}H${x + w - 2}V${y + h - 2}H${x + 10}Q${x + 2} ${y + h / 2} ${x + 10} ${y + 2}Z`,
  at: [x + w / 2 + 3, y + h / 2],
});

const right = (id: string, part: string, y: number, h: number, x = 238, w = 66): BodyPanel => ({
  id,
  part,
  shape: `M${x + 2} ${y + 2}H${x + w - 10}Q${x + w - 2} ${y + h / 2} ${x + w - 10} ${y + h - 2}H${x + 2}Z`,
  at: [x + w / 2 - 3, y + h / 2],
});

export const body: BodyPanel[] = [
  { id: "bumper-front", part: "PANEL_PART_BUMPER", shape: "M126 6Q180 -4 234 6L240 48H120Z", at: [180, 28] },
  { id: "bonnet", part: "PANEL_PART_BONNET", shape: "M128 54H232L236 150H124Z", at: [180, 104] },
  { id: "roof", part: "PANEL_PART_ROOF", shape: "M132 194H228V330H132Z", at: [180, 262] },
  { id: "boot-lid", part: "PANEL_PART_BOOT_LID", shape: "M124 374H236L232 440H128Z", at: [180, 408] },
  { id: "bumper-rear", part: "PANEL_PART_BUMPER", shape: "M120 446H240L234 490Q180 500 126 490Z", at: [180, 470] },
  left("front-wing-left", "PANEL_PART_FRONT_WING", 54, 96),
  left("door-front-left", "PANEL_PART_DOOR", 152, 96),
  left("door-rear-left", "PANEL_PART_DOOR", 250, 96),
  left("rear-wing-left", "PANEL_PART_REAR_WING", 348, 92),
  left("sill-left", "PANEL_PART_SILL", 152, 194, 0, 54),
  right("front-wing-right", "PANEL_PART_FRONT_WING", 54, 96),
  right("door-front-right", "PANEL_PART_DOOR", 152, 96),
  right("door-rear-right", "PANEL_PART_DOOR", 250, 96),
  right("rear-wing-right", "PANEL_PART_REAR_WING", 348, 92),
  right("sill-right", "PANEL_PART_SILL", 152, 194, 306, 54),
  left("mirror-cap-left", "PANEL_PART_MIRROR_CAP", 60, 50, 0, 54),
  right("mirror-cap-right", "PANEL_PART_MIRROR_CAP", 60, 50, 306, 54),
];

export const partOfPanel = (id: string): string | undefined => body.find((p) => p.id === id)?.part;

type Props = { looked: (id: string) => "none" | "begun" | "marks"; href: (id: string) => string; name: (id: string) => string; says: (id: string) => string };

// Outline is the drawing. Every panel is a link; what is known of it is told by a letter in it, and in words to those who listen.
export function Outline({ looked, href, name, says }: Props) {
  return (
    <svg class="outline" viewBox="0 0 360 496" role="group" aria-label={phrase("Panels, seen from above with the sides folded out. Front is at the top.")}>
      <path class="glass" d="M126 154H234L228 190H132ZM132 334H228L234 370H126Z" />
      {body.map((p) => {
        const state = looked(p.id);
        return (
          <a key={p.id} href={href(p.id)} aria-label={`${name(p.id)}: ${says(p.id)}`} class={`panel ${state}`}>
            <path d={p.shape} />
            <text x={p.at[0]} y={p.at[1]} text-anchor="middle" dominant-baseline="middle">
              {state === "none" ? "+" : state === "begun" ? "◔" : "✓"}
            </text>
          </a>
        );
      })}
    </svg>
  );
}
