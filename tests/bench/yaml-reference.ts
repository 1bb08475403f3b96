import { TextDocument } from "vscode-languageserver-textdocument";
import { getLanguageService } from "yaml-language-server/lib/umd/languageservice/yamlLanguageService.js";

/**
 * Counts on over all services, for they share what they keep of a document they have seen. Each validation is of the
 * next version of the same document, as in an editor: of one it never saw the service would keep what it read for
 * ever, and grow slower and slower.
 */
let validations = 0;

/** The reference Y: yaml-language-server's validation, called directly, so that no debounce is measured. */
export class YamlReference {
  private readonly service = getLanguageService({
    schemaRequestService: () => Promise.reject(new Error("the schema is given, nothing is to be fetched")),
    workspaceContext: { resolveRelativePath: (path) => path },
  });

  constructor(schema: unknown) {
    this.service.configure({
      validate: true,
      schemas: [{ uri: "bench://schema.json", fileMatch: ["*.yaml"], schema }],
    });
  }

  /** One validation of a version that the service has not seen; how many problems it found. */
  async validate(text: string): Promise<number> {
    validations++;
    const document = TextDocument.create("file:///plan.yaml", "yaml", validations, text);
    const problems = await this.service.doValidation(document, false);
    return problems.length;
  }

  /** The same for a document that is sound: fails where the service finds anything in it. */
  async soundly(text: string): Promise<void> {
    const problems = await this.validate(text);
    if (problems > 0) {
      throw new Error(`the YAML plan has ${problems} problems: the reference is not what it should be`);
    }
  }
}
