import js from "@eslint/js";
import svelte from "eslint-plugin-svelte";
import globals from "globals";
import ts from "typescript-eslint";

export default ts.config(
    { ignores: ["node_modules", ".svelte-kit"] },
    js.configs.recommended,
    ...ts.configs.strict,
    ...svelte.configs.recommended,
    { languageOptions: { globals: { ...globals.browser, ...globals.node } } },
    {
        files: ["**/*.svelte", "**/*.svelte.ts"],
        languageOptions: { parserOptions: { parser: ts.parser } },
    },
    {
        rules: {
            // Types say more than this rule can see.
            "no-undef": "off",
            "max-lines": ["error", { max: 300, skipBlankLines: false, skipComments: false }],
            // The address after the # is ours; there is no router to ask.
            "svelte/no-navigation-without-resolve": "off",
        },
    },
    {
        files: ["src/**/*.svelte"],
        rules: {
            // No arithmetic in a view: figures come from the engine or from a module beside it.
            "no-restricted-syntax": [
                "error",
                {
                    selector: "BinaryExpression[operator=/^[*\\/%-]$/]",
                    message: "no arithmetic in a view",
                },
                {
                    selector: "MemberExpression[object.name='Math']",
                    message: "no arithmetic in a view",
                },
            ],
        },
    },
);
