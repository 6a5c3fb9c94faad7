/**
 * How Teams draws cards, as far as its published sample configurations tell (microsoft/AdaptiveCards:samples/HostConfig/microsoft-teams-*.json):
 * sizes, distances, six actions at most. Colours are near to Teams' own.
 */
const sizes = { small: 12, default: 14, medium: 14, large: 18, extraLarge: 24 };
const weights = { lighter: 200, default: 400, bolder: 600 };

const COLOURS = {
  light: {
    text: '#252424',
    subtle: '#605e5c',
    page: '#f5f5f5',
    card: '#ffffff',
    emphasis: '#f9f8f7',
    warning: '#fff4ce',
    accent: '#5b5fc7',
  },
  dark: {
    text: '#ffffff',
    subtle: '#c8c6c4',
    page: '#1f1f1f',
    card: '#292929',
    emphasis: '#333333',
    warning: '#4a3b10',
    accent: '#a6a7dc',
  },
};

export function host(theme: keyof typeof COLOURS) {
  const { text, subtle, card, emphasis, warning, accent } = COLOURS[theme];
  const both = (colour: string, quiet = colour) => ({ default: colour, subtle: quiet });
  const style = (backgroundColor: string) => ({
    backgroundColor,
    foregroundColors: {
      default: both(text, subtle),
      dark: both('#252424'),
      light: both('#ffffff'),
      accent: both(accent),
      good: both('#92c353'),
      warning: both('#f8d22a'),
      attention: both('#c4314b'),
    },
  });
  return {
    supportsInteractivity: true,
    spacing: { small: 8, default: 12, medium: 16, large: 20, extraLarge: 24, padding: 16 },
    separator: { lineThickness: 1, lineColor: '#eeeeee' },
    imageSizes: { small: 32, medium: 52, large: 100 },
    fontTypes: {
      default: {
        fontFamily: "'Segoe UI', 'Source Sans 3', sans-serif",
        fontSizes: sizes,
        fontWeights: weights,
      },
      monospace: { fontFamily: "'Courier New', monospace", fontSizes: sizes, fontWeights: weights },
    },
    containerStyles: {
      default: style(card),
      emphasis: style(emphasis),
      accent: style(emphasis),
      good: style(emphasis),
      attention: style(warning),
      warning: style(warning),
    },
    actions: {
      maxActions: 6,
      spacing: 'Default',
      buttonSpacing: 8,
      showCard: { actionMode: 'Inline', inlineTopMargin: 16, style: 'emphasis' },
      actionsOrientation: 'Horizontal',
      actionAlignment: 'Left',
    },
    adaptiveCard: { allowCustomStyle: false },
    factSet: {
      title: { size: 'Default', weight: 'Bolder', wrap: true },
      value: { size: 'Default', weight: 'Default', wrap: true },
      spacing: 16,
    },
  };
}

export const colours = (theme: keyof typeof COLOURS) => COLOURS[theme];
